//! Where visitors come from, and how much of the room each address may take: one that
//! opens everything, or guesses all day, leaves the others theirs.

use std::collections::BTreeMap;
use std::net::{IpAddr, Ipv6Addr};
use std::sync::{Arc, Mutex};

/// Where a visitor comes from. Of IPv6 the first 64 bits: whoever has one address of
/// such a network has them all (RFC 4291, section 2.5.4).
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Address(IpAddr);

impl Address {
    pub(super) fn of(ip: IpAddr) -> Self {
        let network = |ip: Ipv6Addr| {
            let [a, b, c, d, ..] = ip.segments();
            Ipv6Addr::new(a, b, c, d, 0, 0, 0, 0)
        };
        match ip.to_canonical() {
            IpAddr::V6(ip) => Self(IpAddr::V6(network(ip))),
            ip => Self(ip),
        }
    }
}

/// Seats: so many in all, so many for each address.
pub(super) struct Seats {
    taken: Mutex<BTreeMap<Address, usize>>,
    all: usize,
    each: usize,
}

/// A seat that is taken until this is dropped.
pub(super) struct Seat {
    seats: Arc<Seats>,
    address: Address,
}

impl Seats {
    pub(super) const fn new(all: usize, each: usize) -> Self {
        Self { taken: Mutex::new(BTreeMap::new()), all, each }
    }

    /// A seat, if there is one for this address.
    pub(super) fn take(self: &Arc<Self>, address: Address) -> Option<Seat> {
        let mut taken = self.taken.lock().ok()?;
        if taken.values().sum::<usize>() >= self.all {
            return None;
        }
        let own = taken.entry(address).or_insert(0);
        if *own >= self.each {
            return None;
        }
        *own += 1;
        Some(Seat { seats: Arc::clone(self), address })
    }
}

impl Drop for Seat {
    fn drop(&mut self) {
        let Ok(mut taken) = self.seats.taken.lock() else { return };
        if let Some(own) = taken.get_mut(&self.address) {
            *own = own.saturating_sub(1);
            if *own == 0 {
                taken.remove(&self.address);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Address {
        Address::of(text.parse().unwrap())
    }

    #[test]
    fn one_address_leaves_the_others_their_seats() {
        let seats = Arc::new(Seats::new(10, 3));
        let greedy: Vec<Option<Seat>> = (0..100).map(|_| seats.take(at("10.0.0.9"))).collect();
        assert_eq!(greedy.iter().flatten().count(), 3);
        let honest: Vec<Seat> =
            (1..=7).map(|n| seats.take(at(&format!("10.0.0.{n}"))).unwrap()).collect();
        assert!(seats.take(at("10.0.1.1")).is_none(), "all are taken");
        drop(greedy);
        assert!(seats.take(at("10.0.1.1")).is_some());
        drop(honest);
        assert!(seats.taken.lock().unwrap().is_empty());
    }

    #[test]
    fn who_has_a_network_of_ipv6_is_one_visitor() {
        assert_eq!(at("2001:db8::1"), at("2001:db8::ffff:1:2:3"));
        assert_ne!(at("2001:db8::1"), at("2001:db8:0:1::1"));
        assert_eq!(at("::ffff:10.0.0.1"), at("10.0.0.1"));
        assert_ne!(at("10.0.0.1"), at("10.0.0.2"));
    }
}
