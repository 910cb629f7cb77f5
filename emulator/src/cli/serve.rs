//! `emulator serve`: the trainer's page.

use std::io;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;

use clap::Args;
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::time::{Instants, Utc};
use miette::Diagnostic;
use serde_json::json;

use super::moment::local_moment;
use super::passphrase::PassphraseArguments;
use super::report::{Unusable, refuse};
use super::{Format, Outcome, Streams};
use crate::keyring::Keyring;
use crate::page::{self, PORT, Plugged, Ready, Serving, Shown};
use crate::plain;
use crate::site::Site;

/// Show a lock in the browser: demonstrate it, break it, understand it.
#[derive(Args)]
#[command(after_help = "\
Examples:
  emulator serve
  emulator serve --site harbour-bakery.toml --lock vault --start 2027-03-01T08:45
  emulator serve --listen 192.168.7.20:8427

Without --listen only this machine is served, and everybody on it may act. With
an address of the network, viewers see the lock and whoever types the join code
may act. Nothing is encrypted on the way: use a network that is yours.

This is a demonstration, not a certified lock. For a real safe follow local codes
and your insurer's rules, use certified locks and ask a licensed locksmith.")]
pub(super) struct Command {
    /// A site file with [demo.codes]; the bakery of the demonstration if left out.
    #[arg(long, value_name = "FILE")]
    site: Option<PathBuf>,
    /// The lock's id; the site's first lock if left out.
    #[arg(long, value_name = "ID")]
    lock: Option<String>,
    /// The local time at which the story starts; now, for a site of your own.
    #[arg(long, value_name = "TIME")]
    start: Option<String>,
    /// Where to listen, such as 192.168.7.20:8427; port 0 takes any.
    #[arg(long, value_name = "ADDRESS:PORT")]
    listen: Option<SocketAddr>,
    /// A folder as the memory stick of that lock: timetable files that `plan seal`
    /// made are loaded from it, extracts are collected into it. The lock gets its key
    /// from the keyring.
    #[arg(long, value_name = "FOLDER", requires = "keyring")]
    stick: Option<PathBuf>,
    /// The keyring of the laptop that the stick comes from.
    #[arg(long, value_name = "FILE", requires = "stick")]
    keyring: Option<PathBuf>,
    #[command(flatten)]
    passphrase: PassphraseArguments,
    /// How the address is told.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl Command {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let shown = match self.site.as_ref().map(|path| Site::load(path)).transpose() {
            Ok(site) => self.shown(site),
            Err(why) => return refuse(streams, &why),
        };
        let mut shown = match shown {
            Ok(shown) => shown,
            Err(why) => return refuse(streams, &why),
        };
        match self.plugged(&shown) {
            Ok(stick) => shown.stick = stick,
            Err(why) => return refuse(streams, &*why),
        }
        let mut told = true;
        let serving = Serving { shown, listen: self.listen };
        let served = page::serve(serving, |ready| {
            let telling = self.tell(ready, streams);
            told = telling.is_ok();
            telling
        });
        match served {
            Ok(()) => Ok(Outcome::Fine),
            // Nobody would know the address.
            Err(why) if !told => Err(why),
            Err(why) => {
                let what = format!("The page cannot be served: {why}.");
                let remedy = format!("Give another address, such as --listen 127.0.0.1:{PORT}.");
                refuse(streams, &Unusable::new(what, remedy))
            }
        }
    }

    fn shown(&self, site: Option<Site>) -> Result<Shown, Unusable> {
        let own = site.is_some();
        let mut shown = match site {
            None => Shown::demo(),
            Some(site) => {
                if site.demo_codes.is_empty() {
                    let what = format!("{} has no [demo.codes].", site.places.file);
                    let remedy = "Nobody could open its locks. Add codes to a copy of the file: \
                                  a real site file holds none.";
                    return Err(Unusable::new(what, remedy));
                }
                let lock = site.locks.first().map_or(String::new(), |lock| lock.id.clone());
                let now = u32::try_from(jiff::Timestamp::now().as_second()).unwrap_or(u32::MAX);
                Shown { site: Arc::new(site), lock, start: Utc::from_secs(now), stick: None }
            }
        };
        if let Some(id) = &self.lock {
            if shown.site.lock(id).is_none() {
                let ids: Vec<&str> = shown.site.locks.iter().map(|l| l.id.as_str()).collect();
                let what = format!("`{id}` is no lock of {}.", shown.site.places.file);
                return Err(Unusable::new(what, format!("Its locks: {}.", ids.join(", "))));
            }
            shown.lock.clone_from(id);
        }
        if let Some(text) = &self.start {
            let (date, second) = local_moment(text)
                .map_err(|why| Unusable::new(format!("`{text}` is no time."), why))?;
            shown.start = match shown.site.zone.instants(date, second) {
                Instants::One(at) | Instants::Two(at, _) => at,
                Instants::None => {
                    let what = format!("A clock change skips {text}.");
                    return Err(Unusable::new(what, "Name a time before or after it."));
                }
            };
        }
        if shown.start < shown.site.zone_since {
            let what = if own && self.start.is_none() { "Now" } else { "The start" };
            let what = format!("{what} is before the rules of {} hold.", shown.site.zone_name);
            return Err(Unusable::new(what, "Give a later --start."));
        }
        Ok(shown)
    }

    /// The stick, and the key that the lock shares with its laptop.
    fn plugged(&self, shown: &Shown) -> Result<Option<Plugged>, Box<dyn Diagnostic>> {
        let (Some(folder), Some(keyring)) = (&self.stick, &self.keyring) else {
            return Ok(None);
        };
        if !folder.is_dir() {
            let what = format!("{} is no folder.", plain::path(folder));
            return Err(Unusable::new(what, "Name the folder that stands for the stick.").into());
        }
        let passphrase = self.passphrase.get("Passphrase of the keyring: ")?;
        let keyring = Keyring::load(keyring, &passphrase)?;
        let number = shown
            .site
            .lock(&shown.lock)
            .and_then(|lock| LockNumber::new(u16::try_from(lock.number).ok()?));
        let pairing = number.and_then(|number| keyring.sealing(number));
        let Some(pairing) = pairing else {
            let what = format!("The keyring holds no key that the lock {} has.", shown.lock);
            let number = number.map_or(0, LockNumber::get);
            let remedy =
                format!("Make one (emulator keyring pair --lock {number}), or confirm it.");
            return Err(Unusable::new(what, remedy).into());
        };
        let copy = Pairing::new(pairing.lock(), pairing.generation(), *pairing.key());
        Ok(Some(Plugged { folder: folder.clone(), pairing: Arc::new(copy) }))
    }

    fn tell(&self, ready: &Ready, streams: &mut Streams<'_>) -> io::Result<()> {
        let Ready { address, join_code, own_link } = ready;
        match self.format {
            Format::Json => {
                let object = json!({
                    "address": address, "join_code": join_code, "own_link": own_link,
                });
                writeln!(streams.out, "{object}")?;
            }
            Format::Text => {
                writeln!(streams.out, "The lock is at {address}\n")?;
                if let Some(code) = join_code {
                    writeln!(
                        streams.out,
                        "Everybody may watch. Whoever is to act types {code}.\n"
                    )?;
                }
                if let Some(link) = own_link {
                    writeln!(
                        streams.out,
                        "Your own link, which may act at once; show it to nobody:\n{link}\n"
                    )?;
                }
                writeln!(
                    streams.out,
                    "A demonstration, not a certified lock. Ctrl-C ends it; nothing is kept."
                )?;
            }
        }
        streams.out.flush()
    }
}
