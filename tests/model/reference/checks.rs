//! What may be given in a dialogue, by whom and about whom (section 12).

use super::attempt::duress_variant;
use super::durable::MOST_FAILURES;
use super::forms::Form;
use super::lock::Model;
use super::setup::{Holder, Role, Setup};
use super::typing::Second;

impl Model {
    /// Enrolled, not suspended, and with a total below 100; of wardens also
    /// those above.
    pub(crate) fn is_able(&self, holder: &Holder) -> bool {
        let barred = self.total(holder.number) == MOST_FAILURES && holder.role != Role::Warden;
        !holder.suspended && !barred
    }

    /// Able wardens and stewards of a set-up, of one role or of both.
    pub(crate) fn able_privileged(&self, setup: &Setup, role: Option<Role>) -> Vec<u8> {
        let holders = setup.holders.values().filter(|holder| holder.role.is_privileged());
        holders
            .filter(|holder| role.is_none_or(|role| holder.role == role) && self.is_able(holder))
            .map(|holder| holder.number)
            .collect()
    }

    /// Another able privileged person than who asks and whom it is about.
    pub(crate) fn another_privileged(&self, by: u8, about: Option<u8>) -> Option<u8> {
        let able = self.able_privileged(self.setup(), None);
        able.into_iter().find(|number| *number != by && Some(*number) != about)
    }

    fn asker(&self, form: &Form) -> Option<&Holder> {
        self.setup().holder(form.by)
    }

    pub(crate) fn check_number(&self, form: &Form, typed: &str) -> Result<u8, &'static str> {
        let number: u8 = typed.parse().expect("digits");
        if typed.len() != 2 || number == 0 {
            return Err("no-choice");
        }
        let holder = self.setup().holder(number);
        if matches!(form.task, "enrol" | "first-warden") {
            return match holder {
                Some(_) => Err("taken"),
                None => Ok(number),
            };
        }
        let holder = holder.ok_or("nobody")?;
        let deputy = self.asker(form).is_some_and(|asker| asker.role == Role::Deputy);
        let own = matches!(form.task, "suspend" | "remove" | "change-role") && number == form.by;
        // In the order in which the contract lists the reasons.
        if deputy && holder.role != Role::Keyholder {
            return Err("not-yours");
        }
        if own {
            return Err("yourself");
        }
        match form.task {
            "suspend" if holder.suspended => Err("already"),
            "restore" if !holder.suspended && self.total(number) < MOST_FAILURES => Err("already"),
            "change-role" if holder.role == Role::Courier => Err("courier"),
            "choose-timetable" if holder.role == Role::Steward => Err("not-yours"),
            _ => Ok(number),
        }
    }

    /// A number whose total is 100 is restored with a new code, but a courier's.
    pub(crate) fn takes_a_new_code(&self, number: u8) -> bool {
        let courier =
            self.setup().holder(number).is_some_and(|holder| holder.role == Role::Courier);
        self.total(number) == MOST_FAILURES && !courier
    }

    pub(crate) fn check_code(&self, form: &Form, typed: &str) -> Result<(), &'static str> {
        if typed.len() != self.setup().policy.code_digits {
            return Err("digits");
        }
        let own = self.asker(form).filter(|_| form.task == "change-code");
        let both = |code: &str| [code.to_owned(), duress_variant(code)];
        if own.is_some_and(|own| both(&own.code).iter().any(|code| both(typed).contains(code))) {
            return Err("own");
        }
        let office = &self.make.office;
        if office.is_easy(typed) || office.is_easy(&duress_variant(typed)) {
            return Err("easy");
        }
        Ok(())
    }

    /// Whether the dialogue takes another person, and which; see
    /// `lacks_the_bolt` for a lock that has none.
    pub(crate) fn second_for(&self, form: &Form) -> Option<Second> {
        let (by, about) = (form.by, form.draft.number);
        let second = Second { by, about: None, role: None };
        match form.task {
            "pair" => {
                let steward = self.asker(form).is_some_and(|asker| asker.role == Role::Steward);
                let role = if steward { Role::Warden } else { Role::Steward };
                Some(Second { role: Some(role), ..second })
            }
            "set-clock" => {
                let target = *form.draft.instants.first()?;
                let warden = Some(Second { role: Some(Role::Warden), ..second });
                warden.filter(|_| !self.steward_may(target))
            }
            "way-out" if form.alone => None,
            "way-out" => self.another_privileged(by, None).map(|_| second),
            "set-policy" => {
                let off = form.draft.key == Some("dual_control") && form.draft.value == Some(1);
                let takes = off && self.setup().policy.dual_control;
                self.another_privileged(by, None).filter(|_| takes).map(|_| second)
            }
            _ if self.takes_two(form) => {
                self.another_privileged(by, about).map(|_| Second { about, ..second })
            }
            _ => None,
        }
    }

    /// "Two people are two": the tasks about somebody who is, or is to be,
    /// privileged, and with dual control somebody who opens, or is to.
    fn takes_two(&self, form: &Form) -> bool {
        let tasks = ["enrol", "suspend", "restore", "change-role", "remove"];
        if !tasks.contains(&form.task) {
            return false;
        }
        let present = form.draft.number.and_then(|number| self.setup().holder(number));
        let future = form.draft.role.map(|role| self.row_of(form, role));
        let either = |test: &dyn Fn(&Holder) -> bool| {
            present.is_some_and(test) || future.as_ref().is_some_and(test)
        };
        let privileged = either(&|holder| holder.role.is_privileged());
        let opens = either(&Holder::may_open);
        privileged || (opens && form.task != "suspend" && self.in_force().dual_control)
    }

    /// The row that an enrolment or a change of role makes.
    pub(crate) fn row_of(&self, form: &Form, role: Role) -> Holder {
        let number = form.draft.number.unwrap_or_default();
        let before = self.setup().holder(number);
        let code = form.draft.code.clone();
        Holder {
            number,
            role,
            code: code.or(before.map(|row| row.code.clone())).unwrap_or_default(),
            // Who does not open is not asked: they go on with what they followed.
            follows: form
                .draft
                .follows
                .or(before.map(|row| row.follows))
                .unwrap_or(super::setup::Follows::Always),
            opens: form.draft.opens && matches!(role, Role::Warden | Role::Deputy),
            suspended: before.is_some_and(|row| row.suspended),
            waits: before.and_then(|row| row.waits),
        }
    }

    /// What must stand as it should at the last *OK*: bolt, switch, people.
    pub(crate) fn lacks(&self, form: &Form) -> Option<&'static str> {
        let drawn = self.sensors.bolt_drawn;
        let set_up = self.kept.setting_up;
        match form.task {
            "test-alarm" if !drawn => Some("draw-bolt"),
            "pair" if !drawn && !set_up => Some("draw-bolt"),
            "reset" | "slow-reset" | "first-warden" if !drawn => Some("draw-bolt"),
            "reset" | "slow-reset" | "first-warden" if !self.sensors.switch_on => Some("switch-on"),
            _ if self.takes_two(form) && form.second.is_none() && !self.is_opened() && !set_up => {
                Some("draw-bolt")
            }
            _ => None,
        }
    }
}
