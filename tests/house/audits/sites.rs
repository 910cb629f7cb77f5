//! Whose names and times are told: those of the site file that has the lock, and of no
//! other.

use lock_core::audit::{Entry, Event, Outcome, People};
use lock_core::holder::Number;
use serde_json::Value;

use super::folder::{CHEAP, DEMO, Folder, pairing, passphrase, sealed};
use super::shelf::record;
use emulator::keyring::Keyring;

/// Another site, in another zone, with a holder of the same number.
const AIRPORT: &str = r#"site = "Airport kiosk"
zone = "Asia/Tokyo"
[[lock]]
id = "kiosk"
number = 4711
[timetable.A]
name = "Counter"
mon = ["08:30-12:30"]
[[holder]]
number = 12
name = "Hiroko"
role = "keyholder"
timetable = "A"
"#;

fn opening() -> Vec<Entry> {
    let people = People { first: Number::new(12).unwrap(), second: None };
    // Monday, 2027-03-01, 00:30 UTC: 09:30 in Tokyo.
    let at = 5_099_400;
    let outcome = Outcome::Plain;
    vec![record(1, at, Event::Released { people, outcome }), record(2, at + 3, Event::NotDrawn)]
}

/// Locks 1001 of the bakery, 4711 of the airport, and 42 of neither.
fn folder(name: &str) -> Folder {
    let folder = Folder::new(name);
    let mut keyring = Keyring::default();
    for lock in [42, 1001, 4711] {
        keyring.add(pairing(lock, 1)).unwrap();
        folder.write(&format!("extracts/{lock}.extract"), &sealed(lock, 1, 1, &opening()));
    }
    keyring.save(&folder.path("keyring"), &passphrase(), CHEAP).unwrap();
    folder.write("airport.toml", AIRPORT.as_bytes());
    folder
}

/// The part of a report that is about a lock.
fn part<'t>(text: &'t str, title: &str) -> &'t str {
    let from = text.find(title).unwrap_or_else(|| panic!("no {title} in {text}"));
    let rest = &text[from..];
    rest.split("\n\nLock ").next().unwrap()
}

#[test]
fn a_lock_gets_the_names_of_its_own_site_only() {
    let folder = folder("sites-own");
    let (_, out, err) = folder.audit("report @extracts --site @site.toml");
    for lock in [42, 4711] {
        let told = format!("Lock {lock} is in none of the site files: it is told by numbers");
        assert_eq!(err.matches(&told).count(), 1, "{err}");
        let part = part(&out, &format!("Lock {lock} (in no site file: numbers, UTC)"));
        assert!(!part.contains("Tomasz") && !part.contains("A 08:30"), "{part}");
        assert!(part.contains("Mon 2027-03-01 00:30:00"), "UTC: {part}");
    }
    assert!(part(&out, "Lock 1001 (till)").contains("12 Tomasz"), "{out}");
}

#[test]
fn several_site_files_each_tell_their_locks() {
    let folder = folder("sites-two");
    let sites = "--site @site.toml --site @airport.toml";
    let (_, out, err) = folder.audit(&format!("report @extracts {sites} --html @audit.html"));
    assert_eq!(err.matches("none of the site files").count(), 1, "{err}");
    let kiosk = part(&out, "Lock 4711 (kiosk)");
    assert!(kiosk.contains("12 Hiroko") && kiosk.contains("Mon 2027-03-01 09:30:00"), "{kiosk}");
    assert!(kiosk.contains("A 08:30-12:30") && !kiosk.contains("Tomasz"), "{kiosk}");
    assert!(part(&out, "Lock 1001 (till)").contains("Mon 2027-03-01 00:30:00"), "{out}");
    let page = String::from_utf8(folder.read("audit.html")).unwrap();
    assert!(page.contains("<h1>Audit: Harbour Bakery, Airport kiosk</h1>"), "{page}");
    assert!(page.contains("those of each lock&#39;s site: Asia/Tokyo, Europe/Dublin"), "{page}");

    let (_, out, _) = folder.audit(&format!("verify @extracts {sites} --format json"));
    let told: Value = serde_json::from_str(&out).unwrap();
    let ids: Vec<&Value> = told["locks"].as_array().unwrap().iter().map(|l| &l["id"]).collect();
    assert_eq!(ids, [&Value::Null, &"till".into(), &"kiosk".into()]);

    let (_, out, _) = folder.audit(&format!("export @extracts {sites}"));
    let rows: Vec<&str> = out.lines().filter(|row| row.contains(",released,")).collect();
    assert!(rows[0].starts_with("42,,1,2027-03-01T00:30:00+00:00,,released,12,,"), "{out}");
    assert!(rows[1].contains("2027-03-01T00:30:00+00:00,released,12,Tomasz"), "{out}");
    assert!(rows[2].contains("2027-03-01T09:30:00+09:00,released,12,Hiroko"), "{out}");
    // A date begins where the lock's site is: in Tokyo nine hours before UTC's.
    let (_, out, _) = folder.audit(&format!("export @extracts {sites} --until 2027-03-01"));
    assert_eq!(out.matches(",released,").count(), 0, "{out}");
    let (_, out, _) = folder.audit(&format!("export @extracts {sites} --from 2027-03-01"));
    assert_eq!(out.matches(",released,").count(), 3, "{out}");
}

/// Nothing says whose people they are.
#[test]
fn a_lock_in_two_site_files_is_refused() {
    let folder = folder("sites-both");
    folder.write("copy.toml", DEMO.as_bytes());
    let (code, out, err) = folder.audit("report @extracts --site @site.toml --site @copy.toml");
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("Lock 1001 is in two site files"), "{err}");
}
