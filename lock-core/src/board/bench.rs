//! A board without hardware: hands set what the lock is told, and look at what it did.

use heapless::Deque;

use super::{Board, DriveFault, Noticed};
use crate::keys;
use crate::port::{Alarm, Bolt, Chip, Contacts, Door, Drive, Inhibit, Now, Sound, Switch};
use crate::screen::Screen;
use crate::seed::Seed;
use crate::time::{Seconds, Uptime, Utc};

/// A board that is plain memory: for a first look at the lock, for tests, and for a new
/// board whose parts are not all wired yet.
///
/// Its generator gives the same at each power-up, so that two runs are alike (R10). A
/// lock that was commissioned on a bench has no secrets: keep no real code in it.
///
/// No `Debug`: keys that wait may be a code.
pub struct Bench {
    /// The moment. [`Bench::pass`] moves it on; a test may set it to anything.
    pub now: Now,
    /// What the drive answers; it goes where it is sent only if that is `Ok`.
    pub drive_answers: Result<(), DriveFault>,
    /// Where the blocker is: home, until the lock sends it elsewhere.
    pub blocker: Drive,
    /// What the alarm line says.
    pub alarm: Alarm,
    /// The last sound.
    pub sound: Option<Sound>,
    /// What the display shows.
    pub screen: Option<Screen>,
    contacts: Contacts,
    waiting: Deque<Noticed, { Bench::WAITING }>,
    built: Utc,
}

silent!(Bench);

/// What [`Bench::press`] or [`Bench::happens`] did not take: nothing of it was.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NotTaken {
    /// There is a word among the keys that is no key: see [`keys::named`].
    NoKey,
    /// More would wait than [`Bench::WAITING`]: let the lock take what waits first.
    Full,
}

impl Bench {
    /// How many keys and other news can wait for the lock.
    pub const WAITING: usize = 128;

    /// What a new lock finds: the bolt drawn, the door open, no alarm in the building,
    /// and the service switch on.
    const AJAR: Contacts = Contacts {
        bolt: Bolt::Drawn,
        door: Door::Open,
        inhibit: Inhibit::Clear,
        switch: Switch::On,
    };

    /// A bench on which a lock can be commissioned: the bolt is drawn, the door open and
    /// the service switch on. The clock reads `utc`, and the firmware was built then.
    #[must_use]
    pub const fn at(utc: Utc) -> Self {
        Self {
            now: Now { uptime: Uptime::ZERO, chip: Chip::At(utc) },
            drive_answers: Ok(()),
            blocker: Drive::Block,
            alarm: Alarm::Quiet,
            sound: None,
            screen: None,
            contacts: Self::AJAR,
            waiting: Deque::new(),
            built: utc,
        }
    }

    /// Fingers press those [keys](keys::named), one after the other.
    ///
    /// # Errors
    /// [`NotTaken`]; then none of them was pressed.
    pub fn press(&mut self, keys: &str) -> Result<(), NotTaken> {
        let mut count = 0_usize;
        for key in keys::named(keys) {
            key.ok_or(NotTaken::NoKey)?;
            count = count.saturating_add(1);
        }
        if count > Self::WAITING.saturating_sub(self.waiting.len()) {
            return Err(NotTaken::Full);
        }
        keys::named(keys).flatten().try_for_each(|key| self.happens(Noticed::Key(key)))
    }

    /// Something will have happened by the time that the lock has taken all that waits. A
    /// contact then stays as it was left, also for the next boot.
    ///
    /// # Errors
    /// [`NotTaken::Full`].
    pub fn happens(&mut self, news: Noticed) -> Result<(), NotTaken> {
        self.waiting.push_back(news).map_err(|_| NotTaken::Full)
    }

    /// Somebody leaves the lock as it is in use: service switch off, door closed, bolt
    /// thrown.
    ///
    /// # Errors
    /// [`NotTaken::Full`].
    pub fn shut(&mut self) -> Result<(), NotTaken> {
        self.happens(Noticed::Switch(Switch::Off))?;
        self.happens(Noticed::Door(Door::Closed))?;
        self.happens(Noticed::Bolt(Bolt::Thrown))
    }

    /// Time passes, on the clock chip too if it runs.
    pub fn pass(&mut self, time: Seconds) {
        self.now.uptime = self.now.uptime.after(time);
        if let Chip::At(utc) = &mut self.now.chip {
            *utc = utc.after(time);
        }
    }
}

impl Board for Bench {
    fn now(&mut self) -> Now {
        self.now
    }

    fn contacts(&mut self) -> Contacts {
        self.contacts
    }

    fn notice(&mut self) -> Option<Noticed> {
        let news = self.waiting.pop_front()?;
        match news {
            Noticed::Bolt(bolt) => self.contacts.bolt = bolt,
            Noticed::Door(door) => self.contacts.door = door,
            Noticed::Inhibit(inhibit) => self.contacts.inhibit = inhibit,
            Noticed::Switch(switch) => self.contacts.switch = switch,
            Noticed::Key(_) | Noticed::Supply(_) => {}
        }
        Some(news)
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.drive_answers?;
        self.blocker = to;
        Ok(())
    }

    fn signal(&mut self, level: Alarm) {
        self.alarm = level;
    }

    fn sound(&mut self, sound: Sound) {
        self.sound = Some(sound);
    }

    fn set_clock(&mut self, utc: Utc) {
        self.now.chip = Chip::At(utc);
    }

    fn built(&self) -> Utc {
        self.built
    }

    fn seed(&mut self) -> Seed {
        Seed::new([0x5E; Seed::LEN])
    }

    fn show(&mut self, screen: &Screen) {
        self.screen = Some(*screen);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taken(bench: &mut Bench) -> usize {
        core::iter::from_fn(|| bench.notice()).count()
    }

    #[test]
    fn keys_are_pressed_all_or_none() {
        let mut bench = Bench::at(Utc::MIN);
        assert_eq!(bench.press("12 7392O4 ok"), Err(NotTaken::NoKey));
        assert_eq!(taken(&mut bench), 0);
        let one_too_many = std::string::String::from("1").repeat(Bench::WAITING + 1);
        assert_eq!(bench.press(&one_too_many), Err(NotTaken::Full));
        assert_eq!(taken(&mut bench), 0);
        assert_eq!(bench.press(&one_too_many[1..]), Ok(()));
        assert_eq!(bench.happens(Noticed::Bolt(Bolt::Thrown)), Err(NotTaken::Full));
        assert_eq!(taken(&mut bench), Bench::WAITING);
    }

    #[test]
    fn a_contact_says_what_the_lock_has_taken() {
        let mut bench = Bench::at(Utc::MIN);
        bench.shut().unwrap();
        assert_eq!(bench.contacts(), Bench::AJAR);
        assert_eq!(taken(&mut bench), 3);
        let shut = bench.contacts();
        assert_eq!((shut.bolt, shut.door, shut.switch), (Bolt::Thrown, Door::Closed, Switch::Off));
    }

    #[test]
    fn a_drive_that_does_not_answer_stays_where_it_is() {
        let mut bench = Bench::at(Utc::MIN);
        bench.drive_answers = Err(DriveFault);
        assert_eq!(bench.drive(Drive::Free), Err(DriveFault));
        assert_eq!(bench.blocker, Drive::Block);
    }

    #[test]
    fn time_passes_on_a_clock_that_runs() {
        let mut bench = Bench::at(Utc::from_secs(100));
        bench.pass(Seconds::new(7));
        assert_eq!(bench.now.uptime, Uptime::from_millis(7_000));
        assert_eq!(bench.now.chip, Chip::At(Utc::from_secs(107)));
        bench.now.chip = Chip::Lost;
        bench.pass(Seconds::new(1));
        assert_eq!(bench.now.chip, Chip::Lost);
    }
}
