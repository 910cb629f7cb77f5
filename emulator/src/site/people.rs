//! Holders: who they are, what they may do, what their openings follow.

use lock_core::holder::{Number, Opens, Standing};
use lock_core::role::{Grant, Right, Role, grant};
use lock_core::timetable::Follows;

use super::calendar::PlacedCalendar;
use crate::document::{Field, Table, nearest};
use crate::document::{Place, Source};
use crate::document::{Read, Wrong};

/// Most characters of a person's name.
const NAME_MOST: usize = 40;

/// One holder. The lock knows the number; the name stays on the laptop.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Person {
    /// The number, 01 to 99.
    pub number: Number,
    /// The name, for people at the laptop only.
    pub name: String,
    /// What the holder is to the lock.
    pub role: Role,
    /// What the row says about opening; it counts for wardens and deputies.
    pub opens: Opens,
    /// Active, or suspended (`suspended = true`).
    pub standing: Standing,
    /// What the holder's openings follow. Whoever may not open can leave the
    /// timetable out and then has `always`, which grants nothing.
    pub follows: Follows,
    /// Where the holder stands in the file.
    pub place: Place,
}

impl Person {
    /// Whether role and row let this holder open, and nobody suspended them.
    #[must_use]
    pub fn may_open(&self) -> bool {
        self.standing == Standing::Active
            && match grant(self.role, Right::Open) {
                Grant::Never | Grant::IfDeputies(_) => false,
                Grant::IfRowSays => self.opens == Opens::Yes,
                Grant::Always => true,
            }
    }

    /// The number in two digits and the name, for sentences.
    #[must_use]
    pub fn called(&self) -> String {
        format!("{} ({:02})", self.name, self.number.get())
    }
}

/// Reads every `[[holder]]` of the file.
pub(super) fn read(
    file: &Table<'_>,
    calendar: &PlacedCalendar,
    source: &Source<'_>,
) -> Read<Vec<Person>> {
    let tables = file.get("holder").map_or(Ok(Vec::new()), |field| field.tables("a [[holder]]"))?;
    let mut people: Vec<Person> = Vec::new();
    for (row, table) in tables.iter().enumerate() {
        let person = read_person(table, calendar, source)?;
        if let Some(first) = people.iter().position(|other| other.number == person.number) {
            let number = table.need("number", "number = 12")?;
            let what = format!("The number {:02} is given twice.", person.number.get());
            let remedy = "Give each holder a number of their own, 1 to 99.";
            let wrong = Wrong::new(&number.at(), what, remedy).here("taken");
            return Err(match tables.get(first).filter(|_| first != row) {
                Some(first) => wrong.there(&first.at(), "by this holder"),
                None => wrong,
            });
        }
        people.push(person);
    }
    Ok(people)
}

fn read_person(table: &Table<'_>, calendar: &PlacedCalendar, source: &Source<'_>) -> Read<Person> {
    table.only(&["number", "name", "role", "opens", "timetable", "suspended"])?;
    let number = table.need("number", "number = 12")?;
    let number = number.whole(1, 99, "Holders have the numbers 1 to 99.")?;
    let number = u8::try_from(number).ok().and_then(Number::new).unwrap_or_else(|| {
        unreachable!("1 to 99 are numbers");
    });
    let name = table.need("name", "name = \"Tomasz\"")?.name(NAME_MOST)?;
    let role = read_role(&table.need("role", "role = \"keyholder\"")?)?;
    let opens = read_opens(table, role)?;
    let suspended = table.get("suspended").map_or(Ok(false), |field| field.flag())?;
    let person = Person {
        number,
        name: name.to_owned(),
        role,
        opens,
        standing: Standing::Active,
        follows: Follows::Always,
        place: source.place(table.at().start),
    };
    let follows = read_follows(table, calendar, person.may_open())?;
    let standing = if suspended { Standing::Suspended } else { Standing::Active };
    Ok(Person { follows, standing, ..person })
}

fn read_role(field: &Field<'_>) -> Read<Role> {
    let name = field.text()?;
    Role::ALL.into_iter().find(|role| role.name() == name).ok_or_else(|| {
        let names = Role::ALL.map(Role::name);
        let remedy = match nearest(name, names.into_iter()) {
            Some(near) => format!("Did you mean \"{near}\"?"),
            None => format!("Roles are: {}.", names.join(", ")),
        };
        Wrong::new(&field.at(), "There is no such role.", remedy).here("unknown role")
    })
}

fn read_opens(table: &Table<'_>, role: Role) -> Read<Opens> {
    let Some(field) = table.get("opens") else {
        return Ok(Opens::No);
    };
    let opens = field.flag()?;
    let name = role.name();
    match (grant(role, Right::Open), opens) {
        (Grant::Never | Grant::IfDeputies(_), true) => {
            let what = format!("A {name} can never open.");
            let remedy = "Take `opens` out, or give this person another role and number.";
            Err(Wrong::new(&field.at(), what, remedy).here("not with this role"))
        }
        (Grant::Always, false) => {
            let what = format!("A {name} always may open, within the timetable.");
            let remedy = "Take `opens` out; for a holder who must not open now, write \
                          suspended = true.";
            Err(Wrong::new(&field.at(), what, remedy).here("not with this role"))
        }
        (Grant::Never | Grant::IfDeputies(_), false) => Ok(Opens::No),
        (Grant::Always, true) => Ok(Opens::Yes),
        (Grant::IfRowSays, opens) => Ok(if opens { Opens::Yes } else { Opens::No }),
    }
}

/// `always` is the widest permit of all, so nobody who opens gets it by leaving
/// something out.
fn read_follows(table: &Table<'_>, calendar: &PlacedCalendar, may_open: bool) -> Read<Follows> {
    let Some(field) = table.get("timetable") else {
        if !may_open {
            return Ok(Follows::Always);
        }
        let what = "This holder may open, but no timetable says when.";
        let remedy = "Add timetable = \"A\" (or B, C, D), or \"always\".";
        return Err(Wrong::new(&table.at(), what, remedy).here("`timetable` belongs in here"));
    };
    match field.text()? {
        "always" => Ok(Follows::Always),
        letter => Ok(Follows::Timetable(calendar.defined(letter, &field.at())?)),
    }
}
