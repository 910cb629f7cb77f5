//! The room: one lock and what is round it, on a thread of its own. Commands
//! come in, views go out.

use std::sync::mpsc::{Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

use lock_core::decide::Hours;
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::port::Sound;
use lock_core::rules::opening_time::OpeningTime;
use lock_core::time::{DAY_SECONDS, Instants, Utc};
use serde_json::{Value, json};
use tokio::sync::oneshot;

use super::command::{Command, DAYS_AT_ONCE, SPEEDS, Typed};
use super::lesson::{lessons, named};
use super::recording::Recording;
use super::setup::{Setup, Shown};
use super::stick::{Done, Memory};
use super::views::{Extent, Publisher, Shown as Sent, Topic};
use super::week::Weeks;
use super::{front, why};
use crate::cli::moment::local_moment;
use crate::drill::{Act, Check, Drill, Play};
use crate::tour;

/// How often a running clock moves.
const TICK: Duration = Duration::from_millis(100);
/// Sounds of one publication that the page is told.
const SOUNDS: usize = 8;
/// After so many lines the trace is forgotten.
const TRACE: usize = 20_000;

/// What is asked of the room.
pub(super) enum Asked {
    /// Something is done; the answer says whether.
    Do(Command, oneshot::Sender<Result<(), String>>),
    /// The recording, as a drill file.
    Recording(oneshot::Sender<String>),
}

/// Why a stay in a room ended.
enum Leaves {
    /// The next lock.
    For(Setup),
    /// Nobody will ask any more.
    Closed,
}

/// Keeps the room until nobody can ask any more.
///
/// # Errors
/// If a lock cannot be commissioned: the site does not fit it.
pub(super) fn keep(
    shown: &Shown,
    asked: &Receiver<Asked>,
    publisher: &Publisher,
) -> Result<(), String> {
    let mut setup = Setup::Free { lock: shown.lock.clone(), start: shown.start };
    let (mut chosen, mut extent) = (None, Extent::Everything);
    for serial in 0.. {
        let drill = setup.drill(shown);
        let play = Play::start(&drill).map_err(|why| format!("{why:?}"))?;
        let mut room = Room::open(shown, play, &setup, (serial, chosen), publisher);
        room.extent = extent;
        match room.stay(asked) {
            Leaves::For(next) => setup = next,
            Leaves::Closed => break,
        }
        (chosen, extent) = (Some(room.chosen), room.extent);
    }
    Ok(())
}

/// One lock, from its start until another one takes its place.
struct Room<'d> {
    shown: &'d Shown,
    play: Play<'d>,
    path: Option<Path>,
    speed: u32,
    /// Milliseconds of simulated time that are owed, below a second.
    owed: u64,
    chosen: Number,
    recording: Recording,
    /// The number of the laptop's last request.
    asked: u16,
    sounds: Vec<Sound>,
    sounds_made: u64,
    weeks: Weeks,
    /// What who watches is sent.
    extent: Extent,
    serial: u64,
    publisher: &'d Publisher,
}

/// How far a lesson is.
struct Path {
    lesson: usize,
    /// What came of each step that was played.
    done: Vec<Vec<Check>>,
    /// Whether something was done that is not in it.
    left: bool,
}

impl<'d> Room<'d> {
    fn open(
        shown: &'d Shown,
        mut play: Play<'d>,
        setup: &Setup,
        (serial, chosen): (u64, Option<Number>),
        publisher: &'d Publisher,
    ) -> Self {
        let recording = Recording::from_here(play.world_mut());
        let site = &play.drill().site;
        let known = |number: &Number| site.holder(*number).is_some();
        let first = site.holders.iter().find(|person| person.may_open()).map(|p| p.number);
        let anybody = site.holders.first().map(|person| person.number);
        let chosen = chosen.filter(known).or(first).or(anybody);
        let mut room = Self {
            shown,
            play,
            path: None,
            speed: 0,
            owed: 0,
            chosen: chosen.unwrap_or(SOMEBODY),
            recording,
            asked: 0,
            sounds: Vec::new(),
            sounds_made: 0,
            weeks: Weeks::default(),
            extent: Extent::Everything,
            serial,
            publisher,
        };
        if let Setup::Lesson { lesson, at } = setup {
            room.path = Some(Path { lesson: *lesson, done: Vec::new(), left: false });
            room.choose_who_is_taught();
            for _ in 0..*at {
                room.step();
            }
        }
        room
    }

    /// A lesson is about whoever types first.
    fn choose_who_is_taught(&mut self) {
        let first = self.play.drill().steps.iter().find_map(|step| match &step.act {
            Some(Act::Keys(keys, _)) => match keys.as_slice() {
                [Key::Digit(tens), Key::Digit(ones), ..] => {
                    Number::new(tens.get() * 10 + ones.get())
                }
                _ => None,
            },
            Some(Act::Courier(code)) => Some(code.number),
            _ => None,
        });
        self.chosen = first.unwrap_or(self.chosen);
    }

    fn stay(&mut self, asked: &Receiver<Asked>) -> Leaves {
        let mut last = Instant::now();
        self.publish();
        loop {
            let asked = if self.speed == 0 {
                let asked = asked.recv().map_err(|_| RecvTimeoutError::Disconnected);
                last = Instant::now();
                asked
            } else {
                let asked = asked.recv_timeout(TICK.saturating_sub(last.elapsed()));
                if last.elapsed() >= TICK {
                    self.passes(last.elapsed());
                    last = Instant::now();
                    self.publish();
                }
                asked
            };
            match asked {
                Ok(Asked::Do(command, answer)) => {
                    let (result, next) = match self.follow(&command) {
                        Ok(None) => (self.rests(), None),
                        Ok(next) => (Ok(()), next),
                        Err(why) => (Err(why), None),
                    };
                    // Whoever has the answer finds it published. That nobody
                    // waits for it any more changes nothing.
                    self.publish();
                    let _ = answer.send(result);
                    if let Some(next) = next {
                        return Leaves::For(next);
                    }
                }
                Ok(Asked::Recording(answer)) => {
                    let text = self.recording.file(self.play.drill(), self.play.world());
                    let _ = answer.send(text);
                }
                Err(RecvTimeoutError::Timeout) => {}
                Err(RecvTimeoutError::Disconnected) => return Leaves::Closed,
            }
        }
    }

    /// Whether the lock came to rest. If not, its clock stands.
    fn rests(&mut self) -> Result<(), String> {
        let Some(restless) = self.play.world().restless() else { return Ok(()) };
        self.speed = 0;
        Err(format!("The lock does not come to rest, which is a mistake in it: {restless}."))
    }

    /// Real time passed while the clock was running.
    fn passes(&mut self, real: Duration) {
        let millis = u64::try_from(real.as_millis()).unwrap_or(0);
        self.owed += millis * u64::from(self.speed);
        let seconds = u32::try_from(self.owed / 1_000).unwrap_or(0);
        self.owed %= 1_000;
        if seconds > 0 {
            self.stray();
            self.perform(&Act::Wait(seconds));
            // The next command tells why the clock stands.
            let _ = self.rests();
        }
    }

    /// Carries a command out; the setup of the next lock, if it asks for one.
    fn follow(&mut self, command: &Command) -> Result<Option<Setup>, String> {
        match command {
            Command::Run { speed } => {
                if *speed != 0 && !SPEEDS.contains(speed) {
                    return Err(format!("The clock runs at one of {SPEEDS:?} times."));
                }
                (self.speed, self.owed) = (*speed, 0);
            }
            Command::FrontOnly { on } => {
                self.extent = if *on { Extent::FrontOnly } else { Extent::Everything };
            }
            Command::Choose { number } => self.chosen = *number,
            Command::Lock { id } => {
                if self.shown.site.lock(id).is_none() {
                    return Err("The site has no such lock.".to_owned());
                }
                return Ok(Some(Setup::Free { lock: id.clone(), start: self.shown.start }));
            }
            Command::Lesson { id } => {
                let Some((lesson, _)) = named(id) else {
                    return Err("There is no such lesson.".to_owned());
                };
                return Ok(Some(Setup::Lesson { lesson, at: 0 }));
            }
            Command::Step {} => return self.next_step().map(|()| None),
            Command::Rejoin { at } => {
                let Some(path) = &self.path else { return Err(NO_LESSON.to_owned()) };
                let most = self.play.drill().steps.len();
                let at = at.unwrap_or(path.done.len()).min(most);
                return Ok(Some(Setup::Lesson { lesson: path.lesson, at }));
            }
            Command::Leave {} => self.path = None,
            Command::Next {} => {
                let now = self.play.world().utc();
                let Some(next) = self.happens_next() else {
                    return Err("Nothing is going to happen by itself.".to_owned());
                };
                self.wait(next.since(now).get())?;
            }
            Command::Wait { seconds } => self.wait(*seconds)?,
            Command::Go { to } => return self.go(to),
            Command::Type { number, code } => {
                let keys = self.code(*number, *code)?;
                self.stray();
                self.perform(&Act::Keys(keys, 0));
            }
            Command::Load { file } => {
                let stick = Memory::of(self.shown.stick.as_ref(), self.play.drill());
                let done = stick.load(file, &mut self.play, &mut self.asked)?;
                self.carried(done);
            }
            Command::Collect { scope } => {
                let stick = Memory::of(self.shown.stick.as_ref(), self.play.drill());
                let done = stick.collect(scope.scope(), &mut self.play, &mut self.asked);
                self.carried(done);
            }
            Command::Key { .. }
            | Command::Courier { .. }
            | Command::Bolt { .. }
            | Command::Door { .. }
            | Command::Power { .. }
            | Command::Supply { .. }
            | Command::Inhibit { .. }
            | Command::Switch { .. }
            | Command::LoseClock {}
            | Command::ShiftClock { .. } => {
                let act = command.act().ok_or("This cannot be done.")?;
                self.stray();
                self.perform(&act);
            }
        }
        Ok(None)
    }

    /// Something went over the link, or is to go.
    fn carried(&mut self, done: Done) {
        self.stray();
        match done {
            Done::Act(act) => self.perform(&act),
            Done::ByHand => self.recording.stop(),
        }
    }

    /// Does something, and records it.
    fn perform(&mut self, act: &Act) {
        let at = self.play.world().utc();
        self.play.perform(act);
        self.performed(at, act);
    }

    fn performed(&mut self, at: Utc, act: &Act) {
        self.recording.note(at, act, self.play.world_mut());
        let heard = self.play.world().listen();
        self.sounds_made += u64::try_from(heard.len()).unwrap_or(0);
        self.sounds = heard.into_iter().rev().take(SOUNDS).rev().collect();
        if self.play.trace_length() > TRACE {
            self.play.forget_trace();
        }
    }

    /// What is done now is not in the lesson.
    fn stray(&mut self) {
        if let Some(path) = &mut self.path {
            path.left = true;
        }
    }

    fn next_step(&mut self) -> Result<(), String> {
        match self.path.as_ref().map(|path| path.left) {
            None => Err(NO_LESSON.to_owned()),
            Some(true) => Err("You have left the lesson's path. Go back to it first.".to_owned()),
            Some(false) if self.step() => Ok(()),
            Some(false) => Err("The lesson is over.".to_owned()),
        }
    }

    /// Plays the next step of the drill; whether there was one.
    fn step(&mut self) -> bool {
        let at = self.play.world().utc();
        let Some(step) = self.play.step() else { return false };
        if let Some(act) = &step.act {
            self.performed(at, act);
        }
        if let Some(path) = &mut self.path {
            path.done.push(self.play.checked().to_vec());
        }
        true
    }

    fn wait(&mut self, seconds: u32) -> Result<(), String> {
        if seconds > DAYS_AT_ONCE * DAY_SECONDS {
            return Err(format!("At most {DAYS_AT_ONCE} days pass in one go."));
        }
        if seconds > 0 {
            self.stray();
            self.perform(&Act::Wait(seconds));
        }
        Ok(())
    }

    /// The next thing that happens by itself: the lock wakes, or the chosen
    /// holder's opening time begins or ends.
    fn happens_next(&mut self) -> Option<Utc> {
        let now = self.play.world().utc();
        let world = self.play.world_mut();
        let wake = world.next_wake().map(|wake| wake.div_ceil(1_000));
        let wake = wake.and_then(|wake| u32::try_from(wake).ok()).map(Utc::from_secs);
        let turns = match world.decide(self.chosen).and_then(|decided| decided.hours()) {
            Some(Hours::Timetable(
                OpeningTime::Within { until: turns } | OpeningTime::Outside { opens: turns },
            )) => turns,
            Some(Hours::Always | Hours::Unknown) | None => None,
        };
        [wake, turns].into_iter().flatten().filter(|moment| *moment > now).min()
    }

    /// To a local time: onward, or, if it is past, a new lock that starts then.
    fn go(&mut self, to: &str) -> Result<Option<Setup>, String> {
        let site = &self.play.drill().site;
        let (date, second) = local_moment(to)?;
        let at = match site.zone.instants(date, second) {
            Instants::One(at) | Instants::Two(at, _) => at,
            Instants::None => return Err("A clock change skips this time.".to_owned()),
        };
        let now = self.play.world().utc();
        if at < site.zone_since {
            return Err("The clock of this place had other rules then.".to_owned());
        }
        if at < now || self.path.is_some() && at == now {
            let lock = self.play.drill().lock.clone();
            let own = self.shown.site.lock(&lock).is_some();
            let lock = if own { lock } else { self.shown.lock.clone() };
            return Ok(Some(Setup::Free { lock, start: at }));
        }
        self.wait(at.since(now).get()).map(|()| None)
    }

    /// The keys of a holder's demo code. Nobody is shown which they are.
    fn code(&self, number: Number, which: Typed) -> Result<Vec<Key>, String> {
        let site = &self.play.drill().site;
        let code = site.demo_codes.iter().find(|code| code.number() == number);
        let code = code.ok_or("The site file has no demo code for this number.")?;
        let mut digits: Vec<u8> =
            code.digits().bytes().map(|byte| byte.wrapping_sub(b'0')).collect();
        // Duress: the last digit plus one (docs/behaviour.md, section 3). Wrong: the
        // first one is another, which no duress variant is.
        let changed = match which {
            Typed::Plain => None,
            Typed::Duress => digits.last_mut().map(|last| (last, 1)),
            Typed::Wrong => digits.first_mut().map(|first| (first, 5)),
        };
        if let Some((digit, by)) = changed {
            *digit = (*digit + by) % 10;
        }
        let number = [number.get() / 10, number.get() % 10];
        let all = number.into_iter().chain(digits).filter_map(Digit::new).map(Key::Digit);
        Ok(all.chain([Key::Ok]).collect())
    }

    fn publish(&mut self) {
        let next = self.happens_next();
        let (chosen, speed, serial) = (self.chosen, self.speed, self.serial);
        let drill = self.play.drill();
        let link = self.play.link().to_owned();
        let stick = Memory::of(self.shown.stick.as_ref(), drill).files(drill);
        let lesson = self.lesson(drill);
        let week = self.weeks.of(self.play.world_mut(), &drill.site, chosen);
        let world = self.play.world_mut();
        let shown = json!({ "front_only": self.extent == Extent::FrontOnly });
        let front = vec![
            (Topic::Shown, shown.clone()),
            (Topic::Site, front::sign(drill, serial)),
            (Topic::Front, front::outside(world, (&self.sounds, self.sounds_made))),
        ];
        let mut views = vec![
            (Topic::Shown, shown),
            (Topic::Site, front::site(drill, serial, chosen.get(), &stick)),
            (Topic::Clock, front::clock(world, &drill.site.zone, speed, next)),
            (Topic::Front, front::front(world, (&self.sounds, self.sounds_made), &link)),
            (Topic::Why, why::explain(world, &drill.site, &drill.lock, chosen)),
            (Topic::Lesson, lesson),
            (
                Topic::Recording,
                json!({
                    "acts": self.recording.length(), "ended": self.recording.ended(),
                }),
            ),
        ];
        // Without power nobody can read these; what was read before is of then.
        views.extend(front::records(world, &drill.site).map(|records| (Topic::Audit, records)));
        views.extend(week.map(|week| (Topic::Week, week)));
        self.publisher.publish(Sent { everything: views, front, extent: self.extent });
    }

    fn lesson(&self, drill: &Drill) -> Value {
        let Some(path) = &self.path else { return Value::Null };
        let Some(lesson) = lessons().get(path.lesson) else { return Value::Null };
        let steps = drill.steps.iter().enumerate().map(|(place, step)| {
            let checks = path.done.get(place).map(|checks| {
                let each = checks.iter().map(|check| {
                    let Check { key, expected, seen, met } = check;
                    json!({ "key": key, "expected": expected, "seen": seen, "met": met })
                });
                each.collect::<Vec<_>>()
            });
            json!({ "say": step.say, "act": tour::act(step), "checks": checks })
        });
        json!({
            "id": lesson.id,
            "title": drill.title,
            "teaches": drill.teaches,
            "done": path.done.len(),
            "left": path.left,
            "steps": steps.collect::<Vec<_>>(),
        })
    }
}

/// Who is chosen where nobody is enrolled.
const SOMEBODY: Number = match Number::new(1) {
    Some(number) => number,
    None => unreachable!(),
};

const NO_LESSON: &str = "No lesson is under way.";

/// A room's thread, and where it is asked.
pub(super) fn start(
    shown: Shown,
    asked: Receiver<Asked>,
    publisher: Publisher,
) -> std::io::Result<std::thread::JoinHandle<()>> {
    std::thread::Builder::new().name("room".to_owned()).spawn(move || {
        // A site that does not fit its lock was refused when it was read.
        let _ = keep(&shown, &asked, &publisher);
    })
}
