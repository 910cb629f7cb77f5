//! What a translator fills in.

use embedded_graphics::mono_font::MonoFont;

use super::form_language::Forms;
use crate::audit::Refusal;

/// A title and what stands below it.
///
/// A title has at most [`super::TITLE_COLUMNS`] letters; a body, once broken
/// into lines of [`super::COLUMNS`] letters, has at most
/// [`super::BODY_LINES`] of them. Letters are those of ISO 8859-1 that
/// [`Language::font`] has. In a body
///
/// - `#` stands for a number (minutes, tries, a holder, volts),
/// - `@` for a date and time, written after [`Language::stamp`],
/// - `|` ends a line.
#[derive(Clone, Copy, Debug)]
pub struct Says {
    /// The title.
    pub title: &'static str,
    /// The body.
    pub body: &'static str,
}

/// One refusal.
#[derive(Clone, Copy, Debug)]
pub struct Refused {
    /// The title.
    pub title: &'static str,
    /// The body where no end is known: why, and what to do.
    pub body: &'static str,
    /// The body where an end is known, with `@` for it. `None` where the lock
    /// never knows one.
    pub until: Option<&'static str>,
}

/// Why a right code does not open: a sentence for each [`Refusal`].
#[derive(Clone, Copy, Debug)]
pub struct Refusals {
    /// It is released or open already.
    pub already_open: Refused,
    /// The holder is suspended.
    pub suspended: Refused,
    /// Too many wrong codes on this number.
    pub barred: Refused,
    /// The role or row does not allow it.
    pub right: Refused,
    /// The inhibit input is set.
    pub inhibit: Refused,
    /// A hold-shut is in force. Also what stands there at rest.
    pub held_shut: Refused,
    /// The supply is spent.
    pub supply: Refused,
    /// The clock is invalid.
    pub clock: Refused,
    /// Outside the opening windows.
    pub closed: Refused,
    /// The time delay would outlast the window.
    pub late: Refused,
    /// A time delay is running.
    pub waiting: Refused,
    /// Somebody else's delay is to be claimed.
    pub other_person: Refused,
    /// Dual control takes two different people.
    pub same_person: Refused,
    /// A penalty is running.
    pub penalty: Refused,
    /// No window starts soon enough for a hold-shut, or the clock is invalid.
    pub hold: Refused,
    /// The clock was set by two people and settles.
    pub settling: Refused,
    /// The first of the two may not open by now.
    pub first_refused: Refused,
}

impl Refusals {
    /// The sentences for one reason.
    #[must_use]
    pub const fn of(&self, why: Refusal) -> &Refused {
        match why {
            Refusal::AlreadyOpen => &self.already_open,
            Refusal::Suspended => &self.suspended,
            Refusal::Barred => &self.barred,
            Refusal::Right => &self.right,
            Refusal::Inhibit => &self.inhibit,
            Refusal::HeldShut => &self.held_shut,
            Refusal::Supply => &self.supply,
            Refusal::Clock => &self.clock,
            Refusal::Closed => &self.closed,
            Refusal::Late => &self.late,
            Refusal::Waiting => &self.waiting,
            Refusal::OtherPerson => &self.other_person,
            Refusal::SamePerson => &self.same_person,
            Refusal::Penalty => &self.penalty,
            Refusal::Hold => &self.hold,
            Refusal::Settling => &self.settling,
            Refusal::FirstRefused => &self.first_refused,
        }
    }
}

/// All that the screen can say, in one language.
#[derive(Clone, Copy, Debug)]
pub struct Language {
    /// Its letters, 10 × 20 pixels each. Also what pictograms write digits and
    /// question marks with.
    pub font: &'static MonoFont<'static>,
    /// Days of the week from Monday, abbreviated.
    pub weekdays: [&'static str; 7],
    /// Months from January, abbreviated.
    pub months: [&'static str; 12],
    /// How a date and time is written: `w` the weekday, `d` the day, `m` the
    /// month, `t` the time from 00:00 to 24:00; the rest stands for itself.
    pub stamp: &'static str,

    /// At rest, nothing to warn about.
    pub secured: Says,
    /// At rest, the supply low.
    pub secured_low: &'static str,
    /// At rest, the supply spent.
    pub secured_spent: &'static str,
    /// At rest, the clock invalid.
    pub secured_no_clock: &'static str,
    /// At rest, the supply low and the clock invalid.
    pub secured_low_no_clock: &'static str,
    /// At rest, the supply spent and the clock invalid.
    pub secured_spent_no_clock: &'static str,

    /// An entry with nothing in it yet.
    pub entry_nothing: Says,
    /// An entry with the first digit of the number; that digit stands above.
    pub entry_tens: Says,
    /// An entry with a number; it stands above.
    pub entry_number: Says,
    /// An entry with a number and part of a code; they stand above.
    pub entry_code: Says,

    /// The list; the tasks stand above the body.
    pub list: Says,
    /// Dialogues, and the tasks of the list.
    pub forms: Forms,
    /// What to do when a task was chosen and nothing typed.
    pub who_nothing: &'static str,
    /// The same while something stands above.
    pub who_typed: &'static str,

    /// An entry was too short to be a code.
    pub too_short: Says,
    /// An entry was too long to be a code.
    pub too_long: Says,
    /// A wrong code; the tries left stand above the body.
    pub wrong_code: Says,
    /// Tries left, not one.
    pub tries: &'static str,
    /// One try left.
    pub one_try: &'static str,
    /// A right code, refused.
    pub refusals: Refusals,
    /// A penalty; `#` minutes.
    pub penalty: Says,

    /// The bolt is free.
    pub released: Says,
    /// The bolt is free, the supply low.
    pub released_low: &'static str,
    /// The bolt is free, the supply spent meanwhile.
    pub released_spent: &'static str,
    /// Open within its time.
    pub open: Says,
    /// Open when it should be closed.
    pub close_now: Says,

    /// The second of two is waited for; `#` is the first.
    pub second_person: Says,
    /// A time delay; `#` minutes.
    pub waiting: Says,
    /// The delay is over; `#` minutes to claim.
    pub claimable: Says,
    /// A hold-shut was set just now, until `@`.
    pub hold_set: Says,
    /// A way out was asked for; `#` hours.
    pub way_out: Says,
    /// Nobody can open yet.
    pub setting_up: Says,

    /// The title of the status.
    pub status: &'static str,
    /// Records that no reader has, `#`.
    pub uncollected: &'static str,
    /// The supply: to be changed soon, half, full.
    pub charges: [&'static str; 3],
    /// The supply, not measured yet.
    pub supply_unknown: &'static str,
    /// The time, `@`.
    pub now: &'static str,
    /// The time, not known.
    pub now_unknown: &'static str,

    /// Service is needed; the fault stands above the body.
    pub service: Says,
    /// Never commissioned.
    pub blank: &'static str,
    /// Settings that cannot be read.
    pub settings: &'static str,
    /// Settings of another layout.
    pub layout: &'static str,
    /// A write that failed.
    pub store: &'static str,
    /// A drive that did not move.
    pub drive: &'static str,
    /// A mistake of the lock's own.
    pub bug: &'static str,
}
