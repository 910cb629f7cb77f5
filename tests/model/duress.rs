//! R4: two locks live through the same events, but for one thing: where one is
//! given plain codes, the other is given their duress variants. Nothing that
//! shows in front may tell which is which. Source: `docs/behaviour.md`,
//! sections 3 and 7.

use lock_core::audit::{Event as Happened, Outcome, Record};
use lock_core::device::Progress;
use lock_core::port::{Alarm, Effect, Input as CoreInput, Write};

use crate::adapter::Core;
use crate::generator::Story;
use crate::reference::{Input, Key};
use crate::seeds::{self, Name};
use crate::walk::{Event, Walk, apply};

/// What somebody with a meter on everything but the alarm line sees of an
/// event: what the lock does, what it does to its flash, and when it sleeps.
#[derive(Debug, Default, PartialEq)]
struct Observed {
    steps: Vec<String>,
    flash: Vec<String>,
}

#[test]
fn duress_shows_nothing_in_front_part_1() {
    nothing_shows(0);
}

#[test]
fn duress_shows_nothing_in_front_part_2() {
    nothing_shows(1);
}

fn nothing_shows(part: u32) {
    let (mut swapped, mut raised) = (0, 0);
    for name in seeds::names(part, 2) {
        let mut story = name.story();
        story.setup.policy.duress = true;
        let plain = plain_events(&story);
        let duress = under_duress(&story, &plain, name);
        swapped += plain.iter().zip(&duress).filter(|(a, b)| digit(a) != digit(b)).count();
        let (front, _) = observe(&story, &plain);
        let (behind, alarms) = observe(&story, &duress);
        raised += alarms;
        for (at, (one, other)) in front.iter().zip(&behind).enumerate() {
            assert_eq!(
                one,
                other,
                "story {name}, event {at} {:?}: {}",
                plain[at],
                seeds::repeat(name, "nothing_in_front"),
            );
        }
    }
    println!("{swapped} entries under duress, {raised} alarms");
    assert!(swapped > 0 && raised > 0, "the stories hold entries under duress");
}

/// The story's events with every duress entry made a plain one, each entry on
/// a fresh start: what was typed before is wiped first.
fn plain_events(story: &Story) -> Vec<Event> {
    let mut walk = Walk::new(&story.setup, story.start_utc);
    let (mut model, _) = walk.boot(None);
    let mut events = Vec::new();
    for step in &story.steps {
        walk.play(&mut model, step, &mut |event, _| events.push(*event));
    }
    let mut made = Vec::new();
    let mut run: Vec<Event> = Vec::new();
    for event in events {
        match event {
            Event::Input(_, Input::Key(Key::Digit(_))) => run.push(event),
            Event::Input(now, Input::Key(Key::Ok)) => {
                finish_run(story, &mut run, &mut made);
                made.push(Event::Input(now, Input::Key(Key::Ok)));
            }
            _ => {
                made.append(&mut run);
                made.push(event);
            }
        }
    }
    made.append(&mut run);
    without_dialogues(story, made)
}

/// Digits that *OK* ended: if they are an entry of somebody's code, plain or
/// not, the plain one is typed on a fresh start.
fn finish_run(story: &Story, run: &mut Vec<Event>, made: &mut Vec<Event>) {
    let typed: String = run.iter().filter_map(digit).map(char::from).collect();
    let entry = story.setup.holders.iter().find_map(|holder| {
        let plain = format!("{:02}{}", holder.number, holder.code);
        let fits = typed.ends_with(&plain) || typed.ends_with(&varied(&plain));
        fits.then_some(plain)
    });
    let (Some(entry), Some(Event::Input(now, _))) = (entry, run.first().copied()) else {
        made.append(run);
        return;
    };
    // A pick from the list may stand before the entry, behind an *OK*.
    let before = run.len() - entry.len();
    let pages = made.iter().rev().take_while(|event| is_ok(event)).count();
    let picked = before == 1 && digit(&run[0]).is_some_and(|digit| is_listed(pages, digit));
    if picked {
        made.truncate(made.len() - pages);
    }
    made.push(Event::Input(now, Input::Key(Key::Back)));
    if picked {
        made.extend(vec![Event::Input(now, Input::Key(Key::Ok)); pages]);
        made.push(run[0]);
    }
    made.extend(entry.bytes().map(|byte| Event::Input(now, Input::Key(Key::Digit(byte - b'0')))));
    run.clear();
}

/// The same events, with the last digit of some entries one higher.
fn under_duress(story: &Story, plain: &[Event], name: Name) -> Vec<Event> {
    let mut events = plain.to_vec();
    let codes: Vec<String> = story
        .setup
        .holders
        .iter()
        .map(|holder| format!("{:02}{}", holder.number, holder.code))
        .collect();
    for at in 0..events.len() {
        if !matches!(events[at], Event::Input(_, Input::Key(Key::Ok))) {
            continue;
        }
        let start = (0..at).rev().take_while(|before| digit(&events[*before]).is_some()).last();
        let Some(start) = start.filter(|start| *start >= 2) else { continue };
        let typed: String = events[start..at].iter().filter_map(digit).map(char::from).collect();
        // Only what certainly is an entry: all that was typed since *back*, or
        // since a pick from the list.
        let key = |at: usize| match events.get(at) {
            Some(Event::Input(_, Input::Key(key))) => Some(*key),
            _ => None,
        };
        let pages = (0..start).rev().take_while(|at| key(*at) == Some(Key::Ok)).count();
        let picked = start.checked_sub(pages + 1).and_then(key) == Some(Key::Back)
            && typed.bytes().next().is_some_and(|digit| is_listed(pages, digit));
        let fresh = match (key(start - 1), picked) {
            (Some(Key::Back), _) => typed.as_str(),
            (_, true) => typed.get(1..).unwrap_or_default(),
            (_, false) => continue,
        };
        let entry = codes.iter().any(|code| fresh == code);
        // Two entries in three are made under duress.
        if !entry || name.pick(u32::try_from(at).expect("short"), 3) == 0 {
            continue;
        }
        if let Event::Input(_, Input::Key(Key::Digit(last))) = &mut events[at - 1] {
            *last = (*last + 1) % 10;
        }
    }
    events
}

fn is_ok(event: &Event) -> bool {
    matches!(event, Event::Input(_, Input::Key(Key::Ok)))
}

/// Whether the page of the list that so many *OK*s from rest lead to has a task
/// under that digit: three a page, the sixth has one.
fn is_listed(oks: usize, digit: u8) -> bool {
    let last = if oks.is_multiple_of(6) { b'1' } else { b'3' };
    oks > 0 && (b'1'..=last).contains(&digit)
}

/// The same without a key in a dialogue but *back*: what the model does not
/// lead is left at once.
fn without_dialogues(story: &Story, mut events: Vec<Event>) -> Vec<Event> {
    let walk = Walk::new(&story.setup, story.start_utc);
    let (mut model, _) = walk.boot(None);
    for event in &mut events {
        if let Event::Input(_, Input::Key(key)) = event
            && model.is_in_a_dialogue()
        {
            *key = Key::Back;
        }
        apply(&story.setup, &mut model, event);
    }
    events
}

fn varied(entry: &str) -> String {
    let (rest, last) = entry.split_at(entry.len() - 1);
    let last: u8 = last.parse().expect("a digit");
    format!("{rest}{}", (last + 1) % 10)
}

fn digit(event: &Event) -> Option<u8> {
    match event {
        Event::Input(_, Input::Key(Key::Digit(digit))) => Some(b'0' + digit),
        _ => None,
    }
}

/// What shows, event by event, and how often a duress alarm was raised.
fn observe(story: &Story, events: &[Event]) -> (Vec<Observed>, usize) {
    let walk = Walk::new(&story.setup, story.start_utc);
    let (mut core, _) = Core::boot(&story.setup, walk.now, walk.sensors);
    let mut alarms = 0;
    let observed = events
        .iter()
        .map(|event| {
            let mut seen = Observed::default();
            core.live_heard(event, &mut |now, progress, memory| {
                if *progress == Progress::Did(Effect::Alarm(Alarm::Duress)) {
                    alarms += 1;
                }
                if let Some(step) = front(progress) {
                    seen.steps.push(format!("{} {step}", now.uptime_ms));
                }
                // Mounts and long searches of the timetable read more than a
                // trace keeps; of those the number is compared.
                let traces = memory.take_mounting().into_iter().chain([memory.take_trace()]);
                for trace in traces {
                    seen.flash.extend(trace.ops.iter().map(|op| format!("{op:?}")));
                    if trace.more > 0 {
                        seen.flash.push(format!("and {} more", trace.more));
                    }
                }
            });
            seen
        })
        .collect();
    (observed, alarms)
}

/// One step as it shows in front: without digits, without outcomes, without
/// the alarm line.
fn front(progress: &Progress) -> Option<String> {
    Some(match progress {
        Progress::Did(Effect::Alarm(_)) => return None,
        Progress::Did(effect) => format!("{effect:?}"),
        Progress::Wrote(Write::Record(record), result) => {
            format!("{:?} {result:?}", Record { event: levelled(record.event), ..*record })
        }
        Progress::Wrote(write, result) => format!("{write:?} {result:?}"),
        Progress::Tended(result) => format!("tended {result:?}"),
        Progress::Took(CoreInput::Key(_)) => "key".to_owned(),
        Progress::Took(input) => input.kind().to_owned(),
        Progress::Asleep(wake) => format!("asleep until {wake:?}"),
    })
}

/// The event with a plain outcome: the only field that may differ.
fn levelled(mut event: Happened) -> Happened {
    match &mut event {
        Happened::Released { outcome, .. }
        | Happened::DelayStarted { outcome, .. }
        | Happened::FirstOfTwo { outcome, .. }
        | Happened::Refused { outcome, .. }
        | Happened::HeldShut { outcome, .. }
        | Happened::Status { outcome, .. }
        | Happened::Asked { outcome, .. } => *outcome = Outcome::Plain,
        _ => {}
    }
    event
}
