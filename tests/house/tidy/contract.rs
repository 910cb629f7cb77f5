//! The tables of the contract (docs/behaviour.md) against those of the code.

use lock_core::policy::{Deputies, KEYS, NUMBER_LIMIT, TABLE, Unit};
use lock_core::role::{Grant, Right, Role, grant};
use lock_core::task::Task;
use lock_core::time::Seconds;
use lock_core::{dialog, machine};

use crate::source;

/// The rows of the table in a section, without the two lines of its head.
fn table(section: &str) -> Vec<Vec<String>> {
    let contract = source::text("docs/behaviour.md");
    let lines = contract.lines().skip_while(|line| !line.starts_with(section)).skip(1);
    let rows: Vec<_> = lines
        .take_while(|line| !line.starts_with("## "))
        .filter(|line| line.starts_with('|'))
        .map(|line| {
            line.trim_matches('|')
                .split('|')
                .map(|cell| cell.replace('`', "").trim().into())
                .collect()
        })
        .collect();
    assert!(rows.len() > 3, "section {section} has no table");
    rows
}

/// A value as people write it, in the unit of the code's table: seconds for
/// times, millivolts for voltages. `like` lends its unit where the text has
/// none (`1–60 min`).
fn value(text: &str, like: &str) -> u32 {
    let (digits, unit) = match text.split_once(' ') {
        Some((digits, unit)) => (digits, unit),
        None => (text, like.split_once(' ').map_or("", |(_, unit)| unit)),
    };
    let number: u32 = digits.replace(',', "").parse().unwrap_or_else(|_| panic!("{text}"));
    match unit {
        "" | "s" | "mV" => number,
        "min" => number * 60,
        "h" => number * 3_600,
        unknown => panic!("an unknown unit: {unknown}"),
    }
}

/// A bound that leans on another key: that key's own bound on the same side,
/// less what the text takes off.
fn bound(text: &str, like: &str, of_other: impl Fn(&str) -> Option<u32>) -> u32 {
    let (base, less) = match text.split_once(" − ") {
        Some((base, less)) => (base, value(less, "")),
        None => (text, 0),
    };
    of_other(base).unwrap_or_else(|| value(base, like)) - less
}

fn row(key: &str) -> Option<&'static lock_core::policy::Row> {
    TABLE.iter().find(|row| row.key == key)
}

#[test]
fn the_policy_table_is_that_of_the_contract() {
    let mut keys = Vec::new();
    for cells in table("## 10.").iter().skip(2) {
        let [key, default, bounds, _why] = &cells[..] else { panic!("{cells:?}") };
        if key == "failures for one number" {
            assert_eq!((u32::from(NUMBER_LIMIT), bounds.as_str()), (value(default, ""), "fixed"));
            continue;
        }
        let code = row(key).unwrap_or_else(|| panic!("the code has no {key}"));
        let contract = match code.unit {
            Unit::People | Unit::Switch => {
                assert_eq!(bounds, "on, off", "{key}");
                [code.least, if default == "on" { code.most } else { code.least }, code.least + 1]
            }
            Unit::Choice(words) => {
                assert_eq!(bounds, &words.join(", "), "{key}");
                let place = words.iter().position(|word| word == default);
                let numbered = |place: usize| code.least + u32::try_from(place).unwrap();
                [code.least, numbered(place.expect("a choice")), numbered(words.len() - 1)]
            }
            Unit::Digits | Unit::Tries | Unit::Seconds | Unit::Millivolts => {
                let (least, most) = bounds.split_once('–').unwrap();
                let least = bound(least, most, |other| row(other).map(|row| row.least));
                let most = bound(most, most, |other| row(other).map(|row| row.most));
                [least, value(default, default), most]
            }
        };
        assert_eq!([code.least, code.default, code.most], contract, "{key}");
        keys.push(key.to_owned());
    }
    assert_eq!(keys, KEYS, "the keys, in their order");
}

#[test]
fn the_table_of_rights_is_that_of_the_contract() {
    let rows = table("## 11.");
    let roles = rows[0][1..].iter().map(|name| {
        *Role::ALL.iter().find(|role| role.name() == name).unwrap_or_else(|| panic!("{name}"))
    });
    let roles: Vec<_> = roles.collect();
    assert_eq!(roles, Role::ALL);
    let mut rights = Vec::new();
    for cells in &rows[2..] {
        let right = match cells[0].as_str() {
            "open" => Right::Open,
            "hold shut" => Right::HoldShut,
            "read status" => Right::ReadStatus,
            "change one's own code" => Right::ChangeOwnCode,
            "enrol, restore, give a timetable" => Right::Enrol,
            "give a role" => Right::GiveRole,
            "suspend" => Right::Suspend,
            "remove" => Right::Remove,
            "see the numbers" => Right::SeeNumbers,
            "carry files" => Right::CarryFiles,
            "set the clock" => Right::SetClock,
            "set the policy" => Right::SetPolicy,
            "test the alarm line" => Right::TestAlarm,
            "pair" => Right::Pair,
            "reset" => Right::Reset,
            "ask for a way out" => Right::WayOut,
            unknown => panic!("no such right: {unknown}"),
        };
        for (role, cell) in roles.iter().zip(&cells[1..]) {
            let said = match cell.as_str() {
                "yes" => Grant::Always,
                "no" | "never" => Grant::Never,
                "if the row says so" => Grant::IfRowSays,
                "if deputies is enrol" => Grant::IfDeputies(Deputies::Enrol),
                "if deputies is remove or enrol" => Grant::IfDeputies(Deputies::Remove),
                unknown => panic!("no such grant: {unknown}"),
            };
            assert_eq!(grant(*role, right), said, "{} × {}", role.name(), cells[0]);
        }
        rights.push(right);
    }
    assert_eq!(rights, Right::ALL);
}

/// Section 12 has two tables: the pages of the list, and what each task asks for.
#[test]
fn the_tasks_are_those_of_the_contract() {
    let rows = table("## 12.");
    let split = rows.iter().position(|cells| cells[0] == "task").unwrap();
    let (pages, tasks) = rows.split_at(split);
    let listed = |cells: &Vec<String>| {
        let names = cells[1..].iter().filter(|name| !name.is_empty());
        names.map(|name| Task::ALL.iter().find(|task| task.name() == name).copied()).collect()
    };
    let pages: Vec<Vec<Option<Task>>> = pages[2..].iter().map(listed).collect();
    let code = Task::LIST.map(|page| page.into_iter().filter(Option::is_some).collect::<Vec<_>>());
    assert_eq!(pages, code);
    let tasks: Vec<&str> = tasks[2..].iter().map(|cells| cells[0].as_str()).collect();
    let dialogues = Task::ALL.iter().filter(|task| **task != Task::Status);
    assert!(tasks.into_iter().eq(dialogues.map(|task| task.name())));
}

/// The lengths of sections 9 and 12, each in the sentence that promises it.
#[test]
fn the_lengths_of_dialogues_and_of_the_clock_are_those_of_the_contract() {
    let contract = source::text("docs/behaviour.md");
    let contract = contract.split_whitespace().collect::<Vec<_>>().join(" ");
    let (second, hour) = (Seconds::new, Seconds::from_hours);
    for (length, said, sentence) in [
        (machine::ALONE, second(300), "A steward alone corrects it by 5 min in sum"),
        (machine::PERIOD, hour(720), "30 days of uptime without a correction end the sum"),
        (machine::SETTLING, hour(8), "stay closed for 8 h of uptime"),
        (machine::SESSION, second(600), "*files* 10 min after it began"),
        (machine::SLOW_RESET, hour(24), "after 24 h of uptime, in which the bolt stays drawn"),
        (dialog::PAUSE, second(60), "60 s after the last key that did something a dialogue"),
    ] {
        assert_eq!(length, said, "{sentence}");
        assert!(contract.contains(sentence), "the contract does not say: {sentence}");
    }
}
