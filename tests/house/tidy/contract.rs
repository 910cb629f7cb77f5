//! The tables of the contract (docs/behaviour.md) against those of the code.

use lock_core::policy::{Control, DuressCodes, NUMBER_LIMIT, Policy, TABLE};
use lock_core::role::{Grant, Right, Role, grant};

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

fn row(key: &str) -> Option<&'static lock_core::policy::Bound> {
    TABLE.iter().find(|row| row.key == key)
}

#[test]
fn the_policy_table_is_that_of_the_contract() {
    let mut numeric = Vec::new();
    for cells in table("## 10.").iter().skip(2) {
        let [key, default, bounds, _why] = &cells[..] else { panic!("{cells:?}") };
        match (key.as_str(), default.as_str(), bounds.as_str()) {
            ("key", ..) => {}
            ("dual_control", "off", "") => assert_eq!(Policy::DEFAULT.control, Control::Single),
            ("duress", "on", "") => assert_eq!(Policy::DEFAULT.duress, DuressCodes::On),
            ("failures for one number", limit, "fixed") => {
                assert_eq!(u32::from(NUMBER_LIMIT), value(limit, ""));
            }
            (key, default, bounds) => {
                let code = row(key).unwrap_or_else(|| panic!("the code has no {key}"));
                let (least, most) = bounds.split_once('–').unwrap();
                let least = bound(least, most, |other| row(other).map(|row| row.least));
                let most = bound(most, most, |other| row(other).map(|row| row.most));
                let contract = [least, value(default, default), most];
                assert_eq!([code.least, code.default, code.most], contract, "{key}");
                numeric.push(key.to_owned());
            }
        }
    }
    assert_eq!(numeric, TABLE.map(|row| row.key), "the keys, in their order");
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
            "enrol, restore, give a role or a timetable" => Right::Enrol,
            "suspend" => Right::Suspend,
            "remove" => Right::Remove,
            "see the numbers" => Right::SeeNumbers,
            "carry files" => Right::CarryFiles,
            "set the clock" => Right::SetClock,
            "set the policy" => Right::SetPolicy,
            "test the alarm line" => Right::TestAlarm,
            "pair" => Right::Pair,
            "reset" => Right::Reset,
            unknown => panic!("no such right: {unknown}"),
        };
        for (role, cell) in roles.iter().zip(&cells[1..]) {
            let said = match cell.as_str() {
                "yes" => Grant::Always,
                "no" | "never" => Grant::Never,
                "if the row says so" => Grant::IfRowSays,
                unknown => panic!("no such grant: {unknown}"),
            };
            assert_eq!(grant(*role, right), said, "{} × {}", role.name(), cells[0]);
        }
        rights.push(right);
    }
    assert_eq!(rights, Right::ALL);
}
