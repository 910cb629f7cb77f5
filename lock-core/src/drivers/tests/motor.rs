//! The motor: it stops, it says where it is, and both directions are never on.

use std::rc::Rc;
use std::vec;
use std::vec::Vec;

use embedded_hal_mock::eh1::delay::NoopDelay;
use embedded_hal_mock::eh1::digital::{Mock, State, Transaction};

use super::*;
use crate::board::DriveFault;
use crate::drivers::{Active, MotorDrive, POLL_MILLIS};
use crate::port::Drive;

/// A blocker between 0 (blocked) and `way` (free), a step a poll.
struct Mechanics {
    free: Wire,
    block: Wire,
    at: Cell<u16>,
    way: u16,
    stuck: Cell<bool>,
    both: Cell<bool>,
}

#[derive(Clone)]
struct End(Rc<Mechanics>, Drive);

impl ErrorType for End {
    type Error = Infallible;
}

impl InputPin for End {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        let end = if self.1 == Drive::Free { self.0.way } else { 0 };
        Ok(self.0.at.get() == end)
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        self.is_high().map(|high| !high)
    }
}

/// Time passes: the motor turns.
struct Turning(Rc<Mechanics>);

impl DelayNs for Turning {
    fn delay_ns(&mut self, _: u32) {
        let (free, block) = (self.0.free.0.get(), self.0.block.0.get());
        self.0.both.set(self.0.both.get() || (free && block));
        let at = self.0.at.get();
        if !self.0.stuck.get() {
            self.0.at.set(match (free, block) {
                (true, false) => (at + 1).min(self.0.way),
                (false, true) => at.saturating_sub(1),
                _ => at,
            });
        }
    }

    fn delay_ms(&mut self, _: u32) {
        self.delay_ns(0);
    }
}

#[test]
fn it_gets_there_or_says_so_and_always_stops() {
    const POLLS: u16 = 20;
    for way in 1..=30 {
        for stuck in [false, true] {
            let mechanics = Rc::new(Mechanics {
                free: Wire::default(),
                block: Wire::default(),
                at: Cell::new(0),
                way,
                stuck: Cell::new(stuck),
                both: Cell::new(false),
            });
            let mut drive = MotorDrive::new(
                (mechanics.free.clone(), mechanics.block.clone()),
                (End(Rc::clone(&mechanics), Drive::Free), End(Rc::clone(&mechanics), Drive::Block)),
                Active::High,
                POLLS * POLL_MILLIS,
            );
            for to in [Drive::Block, Drive::Free, Drive::Free, Drive::Block] {
                let before = mechanics.at.get();
                let end = if to == Drive::Free { way } else { 0 };
                let reached = drive.drive(to, &mut Turning(Rc::clone(&mechanics))).is_ok();
                let possible = before == end || (!stuck && before.abs_diff(end) <= POLLS);
                assert_eq!(reached, possible, "{way} {stuck}");
                assert_eq!(reached, mechanics.at.get() == end);
                assert!(!mechanics.free.0.get() && !mechanics.block.0.get(), "it stands still");
                assert!(!mechanics.both.get(), "never both directions");
            }
        }
    }
}

fn pin(transactions: &[Transaction]) -> Mock {
    Mock::new(transactions)
}

/// The calls in their order, on mock pins; switches that are active low.
#[test]
fn what_is_asked_of_the_pins() {
    let (low, high) = (Transaction::set(State::Low), Transaction::set(State::High));
    let reads = |states: &[State]| -> Vec<Transaction> {
        states.iter().map(|state| Transaction::get(*state)).collect()
    };
    let mut free = pin(&[low.clone(), high, low.clone()]);
    let mut block = pin(&[low.clone(), low]);
    // On its way twice, then there: the switch closes to ground.
    let mut at_free = pin(&reads(&[State::High, State::High, State::Low]));
    let mut at_block = pin(&reads(&[State::High; 3]));
    let motor = (free.clone(), block.clone());
    let ends = (at_free.clone(), at_block.clone());
    let mut drive = MotorDrive::new(motor, ends, Active::Low, 50);
    assert!(drive.drive(Drive::Free, &mut NoopDelay::new()).is_ok());
    for pin in [&mut free, &mut block, &mut at_free, &mut at_block] {
        pin.done();
    }
}

/// A switch that cannot be read is a fault, and the motor stops.
#[test]
fn a_pin_that_fails_stops_the_motor() {
    use embedded_hal_mock::eh1::MockError;
    let broken = MockError::Io(std::io::ErrorKind::NotConnected);
    let (low, high) = (Transaction::set(State::Low), Transaction::set(State::High));
    let mut free = pin(&[low.clone(), low.clone()]);
    let mut block = pin(&[low.clone(), high, low]);
    let fails = Transaction::get(State::Low).with_error(broken);
    let mut at_block = pin(&[Transaction::get(State::Low), Transaction::get(State::Low), fails]);
    let mut at_free = pin(&vec![Transaction::get(State::Low); 3]);
    let motor = (free.clone(), block.clone());
    let ends = (at_free.clone(), at_block.clone());
    let mut drive = MotorDrive::new(motor, ends, Active::High, 50);
    assert!(drive.drive(Drive::Block, &mut NoopDelay::new()).is_err());
    for pin in [&mut free, &mut block, &mut at_free, &mut at_block] {
        pin.done();
    }
}

/// Switches that contradict one another: the blocker is at one end, and the other end's
/// switch says so too, as if its wire touched another. Nobody knows where the blocker
/// is, so the lock must not believe that it blocks.
#[test]
fn both_ends_at_once_is_a_fault() {
    for (active, both) in [(Active::High, State::High), (Active::Low, State::Low)] {
        for to in [Drive::Block, Drive::Free] {
            let low = Transaction::set(State::Low);
            let says = Transaction::get(both);
            let mut pins =
                [vec![low.clone()], vec![low], vec![says.clone()], vec![says]].map(|all| pin(&all));
            let [free, block, at_free, at_block] = pins.clone();
            let mut drive = MotorDrive::new((free, block), (at_free, at_block), active, 50);
            assert_eq!(
                drive.drive(to, &mut NoopDelay::new()),
                Err(DriveFault),
                "{active:?} {to:?}"
            );
            pins.iter_mut().for_each(Mock::done);
        }
    }
}
