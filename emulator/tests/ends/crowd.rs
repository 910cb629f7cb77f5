//! The page in front of a class, one of whom wants to spoil it: the others are served
//! meanwhile. Each visitor has an address of its own, out of 127/8.

#![cfg(feature = "page")]

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{Ipv4Addr, SocketAddr, TcpStream};
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

use serde_json::Value;

use crate::emulator;
use crate::place::Place;

/// Who spoils it.
const SPOILER: u16 = 6_666;
/// Streams that one address may have.
const FROM_ONE: usize = 12;

/// A page that is served to the network.
struct Page {
    child: Child,
    port: u16,
    code: String,
    /// The secret of the trainer's own link.
    own: String,
}

impl Drop for Page {
    fn drop(&mut self) {
        self.child.kill().expect("a child can be killed");
        self.child.wait().expect("a child can be waited for");
    }
}

impl Page {
    fn serve() -> Self {
        let arguments = ["serve", "--listen", "0.0.0.0:0", "--format", "json"];
        let mut command = emulator(&arguments.map(Into::into));
        let mut child = command.stdout(Stdio::piped()).spawn().unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
        let told: Value = serde_json::from_str(&line).unwrap();
        let text = |key: &str| told[key].as_str().unwrap().to_owned();
        let port = text("address").trim_end_matches('/').rsplit_once(':').unwrap().1.parse();
        let own = text("own_link").split_once("#trainer=").unwrap().1.to_owned();
        Self { child, port: port.unwrap(), code: text("join_code"), own }
    }

    /// A connection from the address of that visitor.
    fn connect(&self, visitor: u16) -> TcpStream {
        let [a, b] = visitor.to_be_bytes();
        let from = SocketAddr::from((Ipv4Addr::new(127, 1, a, b), 0));
        let to = SocketAddr::from((Ipv4Addr::LOCALHOST, self.port));
        let runtime = tokio::runtime::Builder::new_current_thread().enable_io().build().unwrap();
        let stream = runtime.block_on(async {
            let socket = tokio::net::TcpSocket::new_v4().unwrap();
            socket.bind(from).unwrap();
            socket.connect(to).await.unwrap()
        });
        let stream = stream.into_std().unwrap();
        stream.set_nonblocking(false).unwrap();
        stream
    }

    /// Posts, and gets the answer: its status, and the cookie that it sets.
    fn post(&self, visitor: u16, path: &str, cookie: &str, body: &str) -> (u16, String) {
        let mut stream = self.connect(visitor);
        stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        let (port, length) = (self.port, body.len());
        let head = format!(
            "POST {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nOrigin: http://127.0.0.1:{port}\r\n\
             Content-Type: application/json\r\nCookie: {cookie}\r\nConnection: close\r\n\
             Content-Length: {length}\r\n\r\n{body}"
        );
        stream.write_all(head.as_bytes()).unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        let status = answer.split(' ').nth(1).unwrap().parse().unwrap();
        let cookie = answer.lines().find_map(|line| line.strip_prefix("set-cookie: "));
        (status, cookie.and_then(|cookie| cookie.split(';').next()).unwrap_or("").to_owned())
    }

    fn join(&self, visitor: u16, code: &str) -> (u16, String) {
        self.post(visitor, "/join", "", &format!("{{\"code\":\"{code}\"}}"))
    }

    /// The trainer, by the own link, from anywhere.
    fn trainer(&self, visitor: u16) -> String {
        let (status, cookie) =
            self.post(visitor, "/join", "", &format!("{{\"link\":\"{}\"}}", self.own));
        assert_eq!(status, 200, "the own link always works");
        cookie
    }

    fn act(&self, cookie: &str, command: &str) {
        assert_eq!(self.post(1, "/do", cookie, command).0, 200, "{command}");
    }

    /// A stream of events.
    fn watch(&self, visitor: u16, cookie: &str) -> Watch {
        let mut stream = self.connect(visitor);
        let port = self.port;
        let head =
            format!("GET /events HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nCookie: {cookie}\r\n\r\n");
        stream.write_all(head.as_bytes()).unwrap();
        stream.set_read_timeout(Some(Duration::from_millis(20))).unwrap();
        Watch { stream, heard: String::new() }
    }
}

struct Watch {
    stream: TcpStream,
    heard: String,
}

impl Watch {
    /// Reads until `enough` says so, or for five seconds.
    fn until(&mut self, enough: impl Fn(&str) -> bool) -> bool {
        let started = Instant::now();
        let mut bytes = [0; 65_536];
        while started.elapsed() < Duration::from_secs(5) {
            if enough(&self.heard) {
                return true;
            }
            match self.stream.read(&mut bytes) {
                Ok(0) => break,
                Ok(read) => self.heard += &String::from_utf8_lossy(&bytes[..read]),
                Err(_) => {}
            }
        }
        enough(&self.heard)
    }

    fn hears(&mut self, words: &str) -> bool {
        self.until(|heard| heard.contains(words))
    }

    /// The topics heard so far, each once.
    fn topics(&self) -> Vec<&str> {
        let names = self.heard.lines().filter_map(|line| line.strip_prefix("event: "));
        let mut names: Vec<&str> = names.filter(|name| *name != "beat").collect();
        names.sort_unstable();
        names.dedup();
        names
    }

    fn forget(&mut self) {
        self.until(|heard| heard.contains("event: beat"));
        self.heard.clear();
    }
}

/// A pipe on the stick that is named like a file: it is refused, the page goes on, and
/// so does what is beside it.
#[test]
fn a_pipe_on_the_stick_stops_nothing() {
    let place = Place::new("pipe-on-stick");
    place.fifo("extracts/pipe.timetables");
    place.endless("extracts/loop.timetables");
    let options = "serve --site @bakery.toml --lock till --stick @extracts KEYS \
                   --listen 127.0.0.1:0 --format json";
    let mut child = emulator(&place.words(options)).stdout(Stdio::piped()).spawn().unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    let told: Value = serde_json::from_str(&line).unwrap();
    assert!(told["own_link"].is_null() && told["join_code"].is_null(), "{told}");
    let address = told["address"].as_str().unwrap().trim_end_matches('/').to_owned();
    let port = address.rsplit_once(':').unwrap().1.parse().unwrap();
    let page = Page { child, port, code: String::new(), own: String::new() };
    let mut watch = page.watch(1, "");
    assert!(watch.hears("pipe.timetables"), "{}", watch.heard);
    page.act("", "{\"do\":\"load\",\"file\":\"pipe.timetables\"}");
    assert!(watch.hears("\"link\":\"pipe.timetables is no timetable file\""), "{}", watch.heard);
    page.act("", "{\"do\":\"load\",\"file\":\"loop.timetables\"}");
    assert!(watch.hears("cannot be read or written"), "{}", watch.heard);
    page.act("", "{\"do\":\"wait\",\"seconds\":60}");
}

/// Guesses, idle streams, half a request, bodies without an end; and beside it people
/// who watch, one who types the code, and the trainer, who sits where the spoiler does.
#[test]
fn honest_visitors_are_served_while_somebody_spoils_it() {
    let page = Page::serve();
    let statuses: Vec<u16> = (0..40).map(|_| page.join(SPOILER, "AAAAAAAA").0).collect();
    assert_eq!(statuses.iter().filter(|status| **status == 403).count(), 10, "{statuses:?}");
    assert_eq!(statuses.iter().filter(|status| **status == 429).count(), 30);
    let mut idle: Vec<Watch> = (0..100).map(|_| page.watch(SPOILER, "")).collect();
    let taken = idle.iter_mut().filter_map(|watch| watch.hears("HTTP/1.1 ").then_some(&*watch));
    let taken = taken.filter(|watch| watch.heard.starts_with("HTTP/1.1 200")).count();
    assert_eq!(taken, FROM_ONE);
    let mut halves = Vec::new();
    for _ in 0..100 {
        let mut half = page.connect(SPOILER);
        half.write_all(b"POST /do HTTP/1.1\r\nHost: 127").unwrap();
        halves.push(half);
    }

    // Everybody in a class gets a seat.
    let mut class: Vec<Watch> = (1..=40).map(|visitor| page.watch(visitor, "")).collect();
    for watch in &mut class {
        assert!(watch.hears("event: week"), "{}", watch.heard);
    }
    // Their own addresses have done nothing wrong.
    assert_eq!(page.join(SPOILER, &page.code).0, 429);
    let (status, helper) = page.join(41, &page.code);
    assert_eq!(status, 200);
    let trainer = page.trainer(SPOILER);
    for cookie in [&helper, &trainer] {
        let started = Instant::now();
        page.act(cookie, "{\"do\":\"wait\",\"seconds\":60}");
        assert!(started.elapsed() < Duration::from_secs(2), "{:?}", started.elapsed());
    }
    for watch in &mut class {
        assert!(watch.until(|heard| heard.matches("event: clock").count() >= 3), "{}", watch.heard);
    }
    // The viewers' seats are taken: the trainer's are others.
    let _full: Vec<Watch> = (100..140).map(|visitor| page.watch(visitor, "")).collect();
    assert!(page.watch(200, "").hears("503"));
    assert!(page.watch(SPOILER, &trainer).hears("event: week"));
}

/// The front only: what a viewer is sent tells neither alarm nor names nor anything of
/// the room behind, whoever asks and whenever. The server decides.
#[test]
fn a_viewer_of_the_front_is_sent_nothing_else() {
    let page = Page::serve();
    let trainer = page.trainer(1);
    let (mut early, mut own) = (page.watch(2, ""), page.watch(1, &trainer));
    assert!(early.hears("Tomasz") && early.hears("\"alarm\":") && own.hears("Tomasz"));
    page.act(&trainer, "{\"do\":\"front-only\",\"on\":true}");
    assert!(early.hears("\"front_only\":true"));
    early.forget();
    let mut late = page.watch(3, "");
    page.act(&trainer, "{\"do\":\"type\",\"number\":12,\"code\":\"duress\"}");
    page.act(&trainer, "{\"do\":\"bolt\",\"to\":\"draw\"}");
    assert!(own.hears("\"alarm\":\"duress\""), "{}", own.heard);
    for watch in [&mut early, &mut late] {
        assert!(watch.hears("\"bolt\":\"drawn\""), "{}", watch.heard);
        watch.until(|heard| heard.contains("event: beat"));
        let heard = &watch.heard;
        for secret in ["alarm", "duress", "Tomasz", "inhibit", "supply", "holder\"", "penalty"] {
            assert!(!heard.contains(secret), "{secret}: {heard}");
        }
    }
    assert_eq!(early.topics(), ["front"]);
    assert_eq!(late.topics(), ["front", "shown", "site", "you"]);
    // Another lock does not lift it; the trainer does.
    page.act(&trainer, "{\"do\":\"lock\",\"id\":\"vault\"}");
    assert!(late.hears("\"lock\":\"vault\"") && !late.heard.contains("Tomasz"));
    page.act(&trainer, "{\"do\":\"front-only\",\"on\":false}");
    assert!(late.hears("Tomasz") && late.hears("event: audit") && late.hears("\"alarm\":"));
    // And whoever watches cannot.
    assert_eq!(page.post(3, "/do", "", "{\"do\":\"front-only\",\"on\":false}").0, 403);
}
