//! Locks that no extract tells of, and those whose newest one is old.

use serde_json::Value;

use super::folder::{DEMO, Folder};

/// Three locks, each with two extracts.
fn folder(name: &str) -> Folder {
    let folder = Folder::new(name);
    folder.live();
    let (before, rest) = DEMO.split_once("[[lock]]\nid = \"strongbox\"").unwrap();
    let (_, after) = rest.split_once("\n[").unwrap();
    folder.write("site.toml", format!("{before}[{after}").as_bytes());
    folder
}

fn verify(folder: &Folder, rest: &str) -> (u8, String) {
    let (code, out, err) = folder.audit(&format!("verify @extracts {rest}"));
    assert_eq!(err, "", "{rest}");
    (code, out)
}

fn json(folder: &Folder, rest: &str) -> Value {
    let (_, out) = verify(folder, &format!("{rest} --format json"));
    serde_json::from_str(&out).unwrap_or_else(|why| panic!("{why}: {out}"))
}

/// With all extracts of a lock gone there is no gap to be seen; the site file tells.
#[test]
fn a_lock_without_extracts_is_missed() {
    let folder = folder("absent");
    assert_eq!(verify(&folder, "--site @site.toml").0, 0);
    for week in [1, 2] {
        std::fs::remove_file(folder.path(&format!("extracts/vault-{week}.extract"))).unwrap();
    }
    let (code, out) = verify(&folder, "--site @site.toml");
    assert_eq!(code, 1, "{out}");
    assert!(out.contains("ABSENT  Lock 1003 (vault): no whole extract of it is here."), "{out}");
    assert!(out.ends_with("0 with records missing; 1 lock without a whole extract\n"), "{out}");
    let told = json(&folder, "--site @site.toml");
    assert_eq!(told["without_extract"], serde_json::json!([{ "lock": 1003, "id": "vault" }]));
    // Without a site file nobody knows of it.
    assert_eq!(verify(&folder, "").0, 0);
    // A file that is cut short is none.
    let whole = folder.read("extracts/store-2.extract");
    folder.write("extracts/store-2.extract", &whole[..whole.len() - 9]);
    std::fs::remove_file(folder.path("extracts/store-1.extract")).unwrap();
    let (_, out) = verify(&folder, "--site @site.toml");
    assert!(out.contains("ABSENT  Lock 1002 (store)"), "{out}");
}

/// The newest extracts of store and vault were made on Sunday 2027-03-14 at 23:59,
/// the one of the till before its newest, which has no time, a week earlier; a day is 24
/// hours.
#[test]
fn an_old_extract_is_overdue() {
    let folder = folder("overdue");
    let at =
        |date: &str| verify(&folder, &format!("--site @site.toml --overdue 35d --today {date}"));
    // Nobody can tell how old an extract without a time is, whatever came before it.
    let (code, out) = at("2027-03-15");
    assert!(code == 1 && out.contains("OVERDUE Lock 1001 (till): how old"), "{out}");
    assert_eq!(out.matches("OVERDUE").count(), 1, "{out}");
    std::fs::remove_file(folder.path("extracts/till-2.extract")).unwrap();
    assert_eq!(at("2027-04-12").0, 0);
    let (code, out) = at("2027-04-13");
    assert_eq!(code, 1, "{out}");
    let line = "OVERDUE Lock 1001 (till): its newest extract was made Sun 2027-03-07 23:59:00, 35 days ago.";
    assert!(out.contains(line) && out.matches("OVERDUE").count() == 1, "{out}");
    assert_eq!(at("2027-04-19").1.matches("OVERDUE").count(), 1);
    let (_, out) = at("2027-04-20");
    assert_eq!(out.matches("OVERDUE").count(), 3, "{out}");
    assert!(out.ends_with("; 3 overdue (35 days)\n"), "{out}");
    let told = json(&folder, "--site @site.toml --overdue 35d --today 2027-04-20");
    assert_eq!(told["overdue"][1]["days"], 35);
    for wrong in ["--overdue 0d", "--overdue -1", "--overdue 5w", "--today 2027-03-15"] {
        assert_eq!(folder.audit(&format!("verify @extracts {wrong}")).0, 2, "{wrong}");
    }
}
