//! What a translator fills in for dialogues.

use crate::code::Guessable;
use crate::policy::KEYS;
use crate::role::Role;
use crate::screen::Trouble;
use crate::task::Task;

/// The sentences of dialogues. `#` stands for a number, `@` for a date and time,
/// `|` ends a line; what stands together on one screen has at most
/// [`super::BODY_LINES`] lines.
#[derive(Clone, Copy, Debug)]
pub struct Forms {
    /// The tasks, in the order of [`Task::ALL`]: a line of the list, behind the key
    /// to press, and the title of the dialogue; at most 15 letters.
    pub tasks: [&'static str; Task::ALL.len()],
    /// The title while the first warden is enrolled.
    pub first_warden: &'static str,
    /// The title of a reset that no warden asks for.
    pub slow_reset: &'static str,
    /// Under numbered choices that have another page.
    pub more: &'static str,
    /// Under something that is wrong with a choice.
    pub choices_again: &'static str,

    /// Whose number, of those enrolled.
    pub number: &'static str,
    /// A number that is free.
    pub free_number: &'static str,
    /// The roles as choices.
    pub role: &'static str,
    /// Whether somebody opens, as choices.
    pub opens: &'static str,
    /// The timetables as choices.
    pub timetable: &'static str,
    /// A new code.
    pub new_code: &'static str,
    /// The same code again.
    pub again: &'static str,
    /// A date.
    pub date: &'static str,
    /// A time.
    pub time: &'static str,
    /// Which of two instants of one local time, as choices.
    pub which: &'static str,
    /// The values of the policy, in the order of [`KEYS`]; at most 15 letters.
    pub keys: [&'static str; KEYS.len()],
    /// Between the least and the most that a value may be.
    pub to: &'static str,
    /// What values are typed in, in the order of [`KEYS`].
    pub units: [&'static str; KEYS.len()],
    /// Under the bounds of a value.
    pub value: &'static str,
    /// Group `#` of the pairing code.
    pub group: &'static str,
    /// A second person: a warden, a steward, either of them.
    pub second: [&'static str; 3],
    /// That somebody may go on without one.
    pub or_alone: &'static str,
    /// What the second person does.
    pub second_types: &'static str,
    /// The same once something stands above.
    pub second_typed: &'static str,

    /// Under what is about to be done.
    pub confirm: &'static str,
    /// Under what stands against it.
    pub confirm_again: &'static str,
    /// Holder `#`, to whom it is done.
    pub holder: &'static str,
    /// One's own new code.
    pub own_code: &'static str,
    /// Whom to tell before the alarm line is tried.
    pub test_first: &'static str,
    /// The alarm line is to be tried.
    pub test: &'static str,
    /// A hold-shut until `@`: nobody must be inside.
    pub hold: &'static str,
    /// Nobody could open after that.
    pub stuck: &'static str,
    /// Everything on the lock is erased first.
    pub erase: &'static str,
    /// A way out by two people.
    pub way_out: &'static str,
    /// A way out by one person of several.
    pub way_out_alone: &'static str,
    /// A new pairing key.
    pub pair: &'static str,
    /// A reset.
    pub reset: &'static str,
    /// A reset that takes a day.
    pub reset_slowly: &'static str,
    /// The roles by name, after a holder's number.
    pub roles: [&'static str; Role::ALL.len()],
    /// Who never opens.
    pub never_opens: &'static str,
    /// Who opens by timetable `#`, a letter from A to H.
    pub follows: &'static str,
    /// Who opens always.
    pub always: &'static str,
    /// A new value, `#`.
    pub new_value: &'static str,
    /// Version `#` of a timetable file.
    pub version: &'static str,
    /// Before the fingerprint of a file.
    pub fingerprint: &'static str,
    /// Holder `#`, suspended.
    pub suspended: &'static str,
    /// Where nobody else is enrolled.
    pub nobody: &'static str,
    /// While files may come and go.
    pub files: &'static str,

    /// The title once something is done.
    pub done: &'static str,
    /// What was changed.
    pub changes: Changes,
    /// From when on it opens, `@`.
    pub from: &'static str,
    /// What is wrong.
    pub troubles: Troubles,
}

/// What was changed, as a sentence.
#[derive(Clone, Copy, Debug)]
pub struct Changes {
    /// The first warden, `#`.
    pub commissioned: &'static str,
    /// `#` was enrolled.
    pub enrolled: &'static str,
    /// One's own code.
    pub code: &'static str,
    /// `#` has another role.
    pub role: &'static str,
    /// `#` follows another timetable.
    pub timetable: &'static str,
    /// `#` is suspended.
    pub suspended: &'static str,
    /// `#` is restored.
    pub restored: &'static str,
    /// `#` is removed.
    pub removed: &'static str,
    /// The clock was corrected or set.
    pub clock: &'static str,
    /// A value of the policy.
    pub policy: &'static str,
    /// A new pairing key.
    pub paired: &'static str,
    /// File `#` is in force.
    pub loaded: &'static str,
    /// File `#` waits.
    pub waits: &'static str,
    /// The audit was collected.
    pub collected: &'static str,
    /// The alarm line was tried.
    pub tested: &'static str,
    /// A reset began.
    pub reset_begun: &'static str,
    /// It was given up.
    pub reset_cancelled: &'static str,
    /// It is done.
    pub reset: &'static str,
    /// A way out was asked for.
    pub way_out_begun: &'static str,
    /// It was ended.
    pub way_out_ended: &'static str,
    /// Its time has come.
    pub way_out: &'static str,
}

/// What is wrong with what was given: at most two lines each.
#[derive(Clone, Copy, Debug)]
pub struct Troubles {
    /// The number is taken.
    pub taken: &'static str,
    /// Nobody has the number.
    pub free: &'static str,
    /// Only a warden may.
    pub not_yours: &'static str,
    /// A steward follows no timetable.
    pub never: &'static str,
    /// Not to oneself.
    pub yourself: &'static str,
    /// It is so already.
    pub already: &'static str,
    /// A code has `#` digits.
    pub code_length: &'static str,
    /// Before the reason why a code is easy to guess: one line.
    pub easy: &'static str,
    /// The reasons, one line each, in the order of [`Guessable`].
    pub guessable: [&'static str; 9],
    /// The duress variant is easy to guess.
    pub variant: &'static str,
    /// The code is the present one.
    pub unchanged: &'static str,
    /// Not alike.
    pub differ: &'static str,
    /// Out of bounds.
    pub bounds: &'static str,
    /// Another value stands against it.
    pub against: &'static str,
    /// No such date.
    pub no_date: &'static str,
    /// No such time.
    pub no_time: &'static str,
    /// Before the firmware was built, or too long after that.
    pub not_in_its_life: &'static str,
    /// A group is mistyped.
    pub group: &'static str,
    /// Not newer than the key in use.
    pub old_key: &'static str,
    /// The key is another lock's.
    pub other_lock: &'static str,
    /// The bolt must be drawn: one line.
    pub draw_bolt: &'static str,
    /// The switch must be on: one line.
    pub switch_on: &'static str,
    /// No pairing key yet.
    pub not_paired: &'static str,
    /// A courier is enrolled anew.
    pub courier: &'static str,
    /// No such choice.
    pub no_choice: &'static str,
    /// Nobody knows when a window starts.
    pub no_start: &'static str,
    /// The clock is invalid or settling, so no start is known.
    pub unsure: &'static str,
    /// It takes two people, or the opened lock.
    pub open_first: &'static str,
    /// The timetable starts no window ahead.
    pub no_window: &'static str,
    /// Then nobody could ever open.
    pub stuck: &'static str,
    /// Somebody can open.
    pub not_stuck: &'static str,
}

impl Troubles {
    /// The sentence; where it has two parts, the second.
    #[must_use]
    pub const fn of(&self, trouble: Trouble) -> (&'static str, Option<&'static str>) {
        let whole = match trouble {
            Trouble::Taken => self.taken,
            Trouble::Free => self.free,
            Trouble::NotYours => self.not_yours,
            Trouble::NeverOpens => self.never,
            Trouble::Yourself => self.yourself,
            Trouble::Already => self.already,
            Trouble::CodeLength(_) => self.code_length,
            Trouble::Guessable(why) => return (self.easy, Some(self.reason(why))),
            Trouble::VariantGuessable => self.variant,
            Trouble::Unchanged => self.unchanged,
            Trouble::Differ => self.differ,
            Trouble::OutOfBounds => self.bounds,
            Trouble::AgainstAnother => self.against,
            Trouble::NoDate => self.no_date,
            Trouble::NoTime => self.no_time,
            Trouble::NotInItsLife => self.not_in_its_life,
            Trouble::NoStart => self.no_start,
            Trouble::ClockUnsure => self.unsure,
            Trouble::OpenFirst => self.open_first,
            Trouble::NoWindow => self.no_window,
            Trouble::Stuck => self.stuck,
            Trouble::NotStuck => self.not_stuck,
            Trouble::Group => self.group,
            Trouble::OldKey => self.old_key,
            Trouble::OtherLock => self.other_lock,
            Trouble::DrawBolt => self.draw_bolt,
            Trouble::SwitchOn => self.switch_on,
            Trouble::NotPaired => self.not_paired,
            Trouble::Courier => self.courier,
            Trouble::NoChoice => self.no_choice,
        };
        (whole, None)
    }

    const fn reason(&self, why: Guessable) -> &'static str {
        let [few, steps, repeated, doubled, mirrored, strokes, date, popular, run] = self.guessable;
        match why {
            Guessable::FewDigits => few,
            Guessable::EvenSteps => steps,
            Guessable::Repeated => repeated,
            Guessable::Doubled => doubled,
            Guessable::Mirrored => mirrored,
            Guessable::Strokes => strokes,
            Guessable::Date => date,
            Guessable::Popular => popular,
            Guessable::Run => run,
        }
    }
}
