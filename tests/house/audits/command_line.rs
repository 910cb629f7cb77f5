//! `emulator audit` on sealed extracts of emulated locks, and on everything that
//! is none.

use lock_core::audit::{Entry, Event};
use lock_core::holder::Number;
use serde_json::Value;

use super::folder::{Folder, PASSPHRASE, sealed};
use super::shelf::record;

fn wrongs(count: u32) -> Vec<Entry> {
    let who = Number::new(12).unwrap();
    (1..=count).map(|seq| record(seq, seq * 60, Event::WrongCode { who })).collect()
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{why}: {text}"))
}

#[test]
fn whole_extracts_are_fine_and_tell_what_happened() {
    let folder = Folder::new("whole");
    folder.live();
    let (code, out, err) = folder.audit("verify @extracts");
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    assert!(out.ends_with("3 locks, 6 files: 0 broken, 0 with records missing\n"), "{out}");
    // The site has a fourth lock, from which nobody brought anything.
    let (code, out, err) = folder.audit("verify @extracts --site @site.toml");
    assert_eq!((code, err.as_str()), (1, ""), "{out}");
    assert!(out.contains("ABSENT  Lock 1004 (strongbox)"), "{out}");
    let (code, out, err) = folder.audit("report @extracts --site @site.toml");
    assert_eq!((code, err.as_str()), (1, ""), "there is something to look into");
    assert!(out.contains("12 Tomasz") && out.contains("Left open"), "{out}");
    assert!(out.ends_with("3 locks, 2 with something to look into; 0 files broken\n"), "{out}");
    // The vault alone had a quiet fortnight.
    let vault = "@extracts/vault-1.extract @extracts/vault-2.extract";
    let (code, out, _) = folder.audit(&format!("report {vault}"));
    assert_eq!(code, 0, "{out}");
    assert!(!out.contains("Tomasz"), "names come from the site file only");
}

/// Text and JSON tell the same.
#[test]
fn json_tells_what_text_tells() {
    let folder = Folder::new("json");
    folder.live();
    folder.write("extracts/junk.extract", b"no extract");
    let (code, out, _) = folder.audit("verify @extracts --format json");
    let verified = json(&out);
    assert_eq!(code, 1);
    assert_eq!(verified["counts"]["files"], 7);
    assert_eq!(verified["counts"]["broken"], 1);
    assert_eq!(verified["unread"][0]["kind"], "no-extract");
    let (code, out, _) = folder.audit("report @extracts --format json --site @site.toml");
    let reported = json(&out);
    assert_eq!(code, 1);
    assert_eq!(reported["locks"].as_array().unwrap().len(), 3);
    let till = &reported["locks"][0];
    assert_eq!(till["id"], "till");
    assert_eq!(till["openings"].as_array().unwrap().len(), 49);
    assert_eq!(till["openings"][0]["people"][0]["name"], "Tomasz");
    assert!(till.get("duress").is_none() && !out.contains("duress"));
    let (_, told, _) = folder.audit("report @extracts --format json --confidential");
    assert_eq!(json(&told)["locks"][0]["duress"].as_array().unwrap().len(), 1);
    let (_, text, _) = folder.audit("report @extracts --site @site.toml");
    for finding in till["findings"].as_array().unwrap() {
        assert!(text.contains(finding["what"].as_str().unwrap()), "{finding}");
    }
}

/// Cut anywhere, an extract is named, with what is wrong; the others are read.
#[test]
fn a_file_cut_anywhere_is_named_and_the_rest_read() {
    let folder = Folder::new("cut");
    let whole = sealed(1001, 1, 1, &wrongs(14));
    folder.write("extracts/other.extract", &sealed(1002, 1, 1, &wrongs(3)));
    for length in 0..whole.len() {
        folder.write("extracts/till.extract", &whole[..length]);
        let (code, out, _) = folder.audit("verify @extracts");
        assert_eq!(code, 1, "{length}: {out}");
        assert!(out.contains("till.extract"), "{length}: {out}");
        let says = ["is no extract", "is cut short", "does not end as the lock sealed it"];
        assert!(says.iter().any(|words| out.contains(words)), "{length}: {out}");
        assert!(out.contains("3 records, numbers 1 to 3"), "{length}: {out}");
        assert!(out.contains("2 files: 1 broken"), "{length}: {out}");
    }
    folder.write("extracts/till.extract", &[whole.clone(), vec![0]].concat());
    let (code, out, _) = folder.audit("verify @extracts");
    assert_eq!(code, 1, "{out}");
}

/// A byte altered anywhere, in every file of two chunks.
#[test]
fn a_byte_altered_anywhere_is_told() {
    let folder = Folder::new("altered");
    let whole = sealed(1001, 1, 1, &wrongs(14));
    for at in 0..whole.len() {
        let mut altered = whole.clone();
        altered[at] ^= 1 << (at % 8);
        folder.write("extracts/till.extract", &altered);
        let (code, out, err) = folder.audit("verify @extracts");
        assert_eq!(code, 1, "{at}: {out}");
        assert!(out.contains("1 file: 1 broken") && err.is_empty(), "{at}: {out}");
        // What comes before the altered chunk is genuine, and nothing else.
        let (_, csv, err) = folder.audit("export @extracts");
        let rows = csv.lines().count() - 1;
        assert_eq!(rows, if at < 32 + 256 { 0 } else { 11 }, "{at}: {csv}");
        assert!(err.contains("till.extract"), "{at}: {err}");
    }
}

#[test]
fn extracts_of_another_key_are_named() {
    let folder = Folder::new("other-key");
    folder.write("extracts/old.extract", &sealed(1001, 2, 1, &wrongs(3)));
    folder.write("extracts/stranger.extract", &sealed(4711, 1, 1, &wrongs(3)));
    folder.write("extracts/till.extract", &sealed(1001, 1, 1, &wrongs(3)));
    let (code, out, _) = folder.audit("verify @extracts");
    assert_eq!(code, 1);
    for words in ["(lock 1001, generation 2)", "(lock 4711, generation 1)"] {
        assert!(out.contains(words), "{out}");
    }
    assert!(out.contains("3 files: 2 broken"), "{out}");
}

/// Records that differ under one number, and those that nobody collected.
#[test]
fn extracts_that_do_not_fit_together_are_named() {
    let folder = Folder::new("continuity");
    folder.write("extracts/1.extract", &sealed(1001, 1, 1, &wrongs(5)));
    let mut later = wrongs(9);
    later[1] = record(2, 1, Event::Opened);
    folder.write("extracts/2.extract", &sealed(1001, 1, 2, &later));
    let (code, out, _) = folder.audit("verify @extracts");
    assert_eq!(code, 1);
    assert!(out.contains("contradicts an earlier extract: 1 records from 2"), "{out}");
}

#[test]
fn junk_is_named_and_never_a_panic() {
    let folder = Folder::new("junk");
    let png = include_bytes!("../../../docs/screens.png");
    let junk: [(&str, &[u8]); 5] = [
        ("empty", b""),
        ("text", b"lock 1001: everything fine\n"),
        ("picture", png),
        ("zeros", &[0; 100_000]),
        ("site", include_bytes!("../../../emulator/demo/harbour-bakery.toml")),
    ];
    for (name, bytes) in junk {
        folder.write(&format!("extracts/{name}.extract"), bytes);
    }
    for command in ["verify", "report", "export"] {
        let (code, out, err) = folder.audit(&format!("{command} @extracts"));
        assert_eq!(code, 1, "{command}: {out}{err}");
        for (name, _) in junk {
            let told = format!("{name}.extract is no extract of a lock.");
            assert!(out.contains(&told) || err.contains(&told), "{command}: {out}{err}");
        }
    }
    // In a folder, what is called otherwise is not touched; named, it is.
    folder.write("extracts/notes.txt", b"x");
    let (_, out, _) = folder.audit("verify @extracts");
    assert!(!out.contains("notes.txt"));
    let (_, out, _) = folder.audit("verify @extracts/notes.txt");
    assert!(out.contains("notes.txt is no extract"));
}

/// Exit code 2, a sentence, and what to do; no passphrase is repeated.
#[test]
fn what_cannot_be_carried_out_says_why() {
    let folder = Folder::new("refused");
    folder.write("extracts/till.extract", &sealed(1001, 1, 1, &wrongs(3)));
    std::fs::create_dir_all(folder.path("nothing")).unwrap();
    folder.write("wrong", b"another passphrase\n");
    folder.write("blank", b"\n");
    let keys = "--keyring @keyring --passphrase-file @passphrase";
    let cases = [
        (format!("verify @nowhere {keys}"), "cannot be read"),
        (format!("verify @nothing {keys}"), "There is no extract"),
        (format!("report @extracts --site @nowhere {keys}"), "nowhere"),
        (format!("report @extracts --html @nowhere/x.html {keys}"), "cannot be written"),
        (format!("report @extracts --long 0 {keys}"), "--long"),
        (format!("export @extracts --from 2027-13-01 {keys}"), "2027-13-01"),
        (format!("export @extracts --from 2027-03-02 --until 2027-03-02 {keys}"), "--until"),
        (format!("export @extracts --output @nowhere/x.csv {keys}"), "cannot be written"),
        ("verify @extracts --keyring @nowhere --passphrase-file @passphrase".into(), "keyring"),
        (
            "verify @extracts --keyring @site.toml --passphrase-file @passphrase".into(),
            "no keyring",
        ),
        ("verify @extracts --keyring @keyring --passphrase-file @wrong".into(), "passphrase"),
        ("verify @extracts --keyring @keyring --passphrase-file @blank".into(), "empty"),
        ("verify @extracts --keyring @keyring --passphrase-file @nowhere".into(), "passphrase"),
        ("verify @extracts".into(), "--keyring"),
    ];
    for (command, words) in cases {
        let (code, out, err) = folder.run(&format!("audit {command}"));
        assert_eq!((code, out.as_str()), (2, ""), "{command}: {err}");
        let flat = err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(words), "{command}: {err}");
        assert!(!err.contains(PASSPHRASE) && !err.contains("another passphrase"), "{err}");
    }
}

/// A page, and an export of a part of the time that names what can be deleted.
#[test]
fn pages_and_exports_are_written_where_they_are_asked_for() {
    let folder = Folder::new("written");
    folder.live();
    let (code, _, err) = folder.audit("report @extracts --site @site.toml --html @audit.html");
    assert_eq!((code, err.as_str()), (1, ""));
    let page = String::from_utf8(folder.read("audit.html")).unwrap();
    assert!(page.starts_with("<!DOCTYPE html>") && page.ends_with("</html>\n"));
    assert!(page.contains("Lock 1001 (till)") && !page.to_lowercase().contains("duress"));
    let export = "export @extracts --site @site.toml";
    let (code, all, err) = folder.audit(export);
    assert_eq!((code, err.as_str()), (0, ""));
    let (_, before, _) = folder.audit(&format!("{export} --until 2027-03-08"));
    let (_, after, err) = folder.audit(&format!("{export} --from 2027-03-08"));
    assert_eq!(before.lines().count() + after.lines().count(), all.lines().count() + 1);
    assert!(before.lines().skip(1).all(|row| row.contains(",2027-03-0")), "{before}");
    for id in ["till", "store", "vault"] {
        assert!(err.contains(&format!("{id}-1.extract was made before that date: delete it")));
        assert!(!err.contains(&format!("{id}-2.extract was made")), "{err}");
    }
    let (code, out, err) = folder.audit(&format!("{export} --output @all.csv"));
    assert_eq!((code, out.as_str()), (0, ""));
    assert!(err.contains("rows written to"), "{err}");
    assert_eq!(String::from_utf8(folder.read("all.csv")).unwrap(), all);
}

/// Every help has an example.
#[test]
fn every_help_has_an_example() {
    let folder = Folder::new("help");
    for command in [
        "audit",
        "audit verify",
        "audit report",
        "audit export",
        "keyring",
        "keyring pair",
        "keyring list",
        "keyring confirm",
        "keyring drop",
        "keyring passphrase",
        "keyring adopt",
        "keyring codes",
        "keyring used",
        "keyring update",
    ] {
        let (code, out, _) = folder.run(&format!("{command} --help"));
        assert_eq!(code, 0);
        assert!(out.contains("Example") && out.contains(&format!("emulator {command}")), "{out}");
    }
}
