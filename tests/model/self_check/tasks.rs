//! Sections 11 and 12, as far as the model goes: the list, who may begin what,
//! and how a dialogue ends that nobody leads.

use super::*;

/// From rest to *who are you*, for the task at that place of a page.
fn pick(bench: &mut Bench, page: usize, place: &str) -> String {
    bench.step(&Step::Keys(vec![Key::Ok; page]));
    bench.digits(place).shows().to_owned()
}

/// "six pages; *OK* turns to the next one, behind the last comes the first; `1`
/// to `3` pick a task of the page"; "other keys do nothing".
#[test]
fn the_list_has_six_pages() {
    let first = ["hold-shut", "enrol", "remove", "numbers", "set-policy", "reset", "hold-shut"];
    for (before, task) in first.into_iter().enumerate() {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        assert_eq!(pick(&mut bench, before + 1, "1"), format!("who {task}"));
    }
    let mut bench = Bench::new(&shop(), monday(9, 0));
    assert_eq!(pick(&mut bench, 6, "3"), "list 5", "the last page has two tasks");
    assert_eq!(bench.key(Key::Back).shows(), "secured");
    assert_eq!(pick(&mut bench, 5, "3"), "who pair");
}

/// "a right or duress code writes `asked` (with the task and the outcome), sound
/// *key*, tally `cleared`, and its dialogue begins"; "*back* … where nothing does,
/// it leaves".
#[test]
fn a_right_code_begins_a_dialogue_and_back_leaves_it() {
    for (code, outcome, alarm) in [("480317", "plain", "quiet"), ("480318", "duress", "duress")] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        pick(&mut bench, 2, "2");
        bench.look();
        assert_eq!(bench.enter((1, code)).shows(), "form suspend number");
        let (writes, sounds, _) = bench.look();
        let asked = format!("record asked 01 {outcome} (suspend)");
        assert_eq!(writes, ["tally counted 01", asked.as_str(), "tally cleared 01"]);
        assert_eq!(sounds, ["key"; 9]);
        assert_eq!(bench.seen.alarm, alarm);
        assert_eq!(bench.key(Key::Back).shows(), "secured");
    }
}

/// "60 s after the last key … a dialogue is left; *files* 10 min".
#[test]
fn a_dialogue_ends_by_its_pause() {
    for (page, place, person, pause) in [(2, "1", OPEN_ALWAYS, 60), (4, "2", STEWARD, 600)] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        pick(&mut bench, page, place);
        assert!(bench.enter(person).wait(pause - 1).shows().starts_with("form"));
        assert_eq!(bench.wait(1).shows(), "secured");
    }
}

/// "the role … does not allow what was asked", in the table of section 11.
#[test]
fn a_task_goes_by_the_role() {
    for (page, place, person, shown) in [
        (1, "3", STEWARD, "form"),
        (2, "1", COUNTER, "refused right"),
        (4, "3", OPEN_ALWAYS, "refused right"),
        (4, "3", STEWARD, "form"),
        (5, "3", STEWARD, "form"),
        (1, "3", SUSPENDED, "refused suspended"),
    ] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        let who = pick(&mut bench, page, place);
        let shows = bench.enter(person).shows().to_owned();
        assert!(shows.starts_with(shown), "{who}, {}: {shows}", person.0);
    }
}

/// "*OK* where *reset* asks who you are": nobody is asked for a code, and of no
/// other task.
#[test]
fn a_reset_needs_no_code_to_be_asked_for() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    pick(&mut bench, 6, "1");
    assert_eq!(bench.key(Key::Ok).shows(), "form slow-reset confirm refused=draw-bolt");
    assert!(bench.look_at_writes().is_empty());
    let mut bench = Bench::new(&shop(), monday(9, 0));
    pick(&mut bench, 2, "1");
    assert_eq!(bench.key(Key::Ok).shows(), "too short");
}
