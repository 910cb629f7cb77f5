//! Extracts of emulated locks that share a real lock's key: they are told from the
//! real lock's, whatever is done to the files.

use emulator::carry::emulated::MARK;
use emulator::carry::{Laptop, Stick};
use emulator::site::Site;
use emulator::world::World;
use lock_core::keys::{Digit, Key};
use lock_core::link::extract::{HEADER, Scope};
use lock_core::time::Utc;
use serde_json::Value;

use super::folder::{DEMO, Folder, pairing};

/// Monday, 2027-03-01, 09:00 in Dublin.
const MONDAY: u32 = 1_803_891_600;

/// A till on the desk, with the key of the real one, in an open session. What it did
/// depends on `code`: the plain or the duress code of the same keyholder.
fn on_the_desk(code: &str) -> World {
    let site = Site::parse("site", DEMO).map_err(|why| why.to_string()).unwrap();
    let mut settings = site.settings(site.lock("till").unwrap(), [7; 32]);
    settings.pairing = Some(pairing(1001, 1));
    let mut world = World::commission(&settings, Utc::from_secs(MONDAY)).map_err(|_| "").unwrap();
    for word in ["12", code, "ok", "wait", "ok", "ok", "ok", "ok", "2", "50", "805231", "ok"] {
        match word {
            "ok" => world.press(Key::Ok),
            "wait" => world.run_until(world.now() + 60_000),
            digits => {
                for digit in digits.bytes() {
                    world.press(Key::Digit(Digit::new(digit - b'0').unwrap()));
                }
            }
        }
    }
    world
}

/// What `serve --stick --keyring` leaves on the stick.
fn collected(folder: &Folder, code: &str) -> Vec<u8> {
    let mut world = on_the_desk(code);
    let stick = folder.path("stick");
    let _ = std::fs::remove_dir_all(&stick);
    std::fs::create_dir_all(&stick).unwrap();
    let mut laptop = Laptop::new(&mut world, 0);
    let all = (Scope::All, false);
    let path = Stick::at(&stick).collect_emulated(&mut laptop, all, &pairing(1001, 1)).unwrap();
    assert!(path.file_name().unwrap().to_str().unwrap().contains("emulated"));
    std::fs::read(path).unwrap()
}

/// Bytes of an item: `docs/wire-format.md`.
const ITEM: usize = 20;

const PLAIN: &str = "739204";
const DURESS: &str = "739205";

#[test]
fn an_emulated_locks_extract_is_told_from_a_real_one() {
    let folder = Folder::new("emulated");
    folder.live();
    let (_, before, _) = folder.audit("export @extracts --site @site.toml");
    folder.write("extracts/a-desk.extract", &collected(&folder, PLAIN));
    let (code, out, err) = folder.audit("verify @extracts --site @site.toml");
    assert_eq!((code, err.as_str()), (1, ""), "{out}");
    let title = "Lock 1001 (till), made by an emulated lock: it proves nothing of the real one";
    assert!(out.contains(title) && out.contains("EMULATED"), "{out}");
    let sum = "3 locks, 7 files: 0 broken, 0 with records missing, 1 made by an emulated lock; \
               1 lock without a whole extract\n";
    assert!(out.ends_with(sum), "{out}");
    // Nor do its records mix with those of the real lock.
    let (code, after, err) = folder.audit("export @extracts --site @site.toml");
    assert_eq!(code, 1);
    assert!(err.contains("a-desk.extract was made by an emulated lock"), "{err}");
    assert_eq!(before, after);
    let (_, out, _) = folder.audit("report @extracts --site @site.toml --html @audit.html");
    assert!(out.contains("Lock 1001 (till), made by an emulated lock"), "{out}");
    assert!(out.contains("3 locks, 2 with something to look into"), "{out}");
    let page = String::from_utf8(folder.read("audit.html")).unwrap();
    assert!(page.contains("made by an emulated lock"));
    // With nothing else there is no lock at all.
    let (code, out, _) = folder.audit("verify @extracts/a-desk.extract --format json");
    let told: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(code, 1);
    assert_eq!(told["counts"]["emulated"], 1);
    assert_eq!(
        (&told["locks"][0]["emulated"], &told["locks"][0]["id"]),
        (&true.into(), &Value::Null)
    );
}

/// The mark can be taken off or put on by nobody; a changed bit of it is told.
#[test]
fn the_mark_is_sealed_with_the_rest() {
    let folder = Folder::new("emulated-mark");
    folder.live();
    let desk = collected(&folder, PLAIN);
    let real = folder.read("extracts/till-1.extract");
    let judged = |bytes: &[u8]| {
        folder.write("one.extract", bytes);
        let (code, out, _) = folder.audit("verify @one.extract");
        assert_eq!(code, 1, "{out}");
        (out.contains("1 broken"), out.contains("EMULATED"))
    };
    assert_eq!(judged(&desk), (false, true));
    assert_eq!(judged(&desk[MARK..]), (true, false), "taken off");
    assert_eq!(judged(&[&desk[..MARK], &real].concat()), (true, false), "put on");
    assert_eq!(judged(&[&desk[..MARK], &desk].concat()), (true, false), "put on twice");
    for bit in 0..MARK * 8 {
        let mut altered = desk.clone();
        altered[bit / 8] ^= 1 << (bit % 8);
        assert_eq!(judged(&altered), (true, false), "bit {bit}");
    }
    for length in 0..MARK + HEADER {
        assert_eq!(judged(&desk[..length]), (true, false), "cut at {length}");
    }
}

/// Two runs whose records differ by the duress outcome alone: were they sealed under
/// one key and nonce, they would differ in that one bit.
#[test]
fn two_runs_share_no_nonce() {
    let folder = Folder::new("emulated-twice");
    let runs = [PLAIN, DURESS].map(|code| collected(&folder, code));
    assert_eq!(runs[0].len(), runs[1].len());
    assert_eq!(runs[0][MARK..MARK + HEADER], runs[1][MARK..MARK + HEADER], "one header");
    // The first record is one and the same: what differs there is the key.
    let first = MARK + HEADER..MARK + HEADER + ITEM;
    let pairs = runs[0][first.clone()].iter().zip(&runs[1][first]);
    let differing = pairs.map(|(one, two)| (one ^ two).count_ones()).sum::<u32>();
    assert!((40..=120).contains(&differing), "{differing} of 160 bits differ");
    // As the real key would have sealed them: alike up to the outcome of one record,
    // and that shows (a sponge goes its own way behind the block that differs).
    let pairing = pairing(1001, 1);
    let inner = [PLAIN, DURESS].map(|code| {
        let mut world = on_the_desk(code);
        Laptop::new(&mut world, 0).collect(Scope::All, false, &pairing).unwrap().0
    });
    let mut pairs = inner[0][HEADER..].iter().zip(&inner[1][HEADER..]);
    let alike = pairs.by_ref().take_while(|(one, two)| one == two).count();
    let (one, two) = (inner[0][HEADER + alike], inner[1][HEADER + alike]);
    assert!(alike > ITEM && (one ^ two).count_ones() <= 2, "{alike} bytes alike, {:#x}", one ^ two);
}
