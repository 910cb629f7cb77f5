//! Addresses, connections, answers.

use std::convert::Infallible;
use std::io;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::sync::mpsc::{SyncSender, sync_channel};
use std::time::{Duration, Instant};

use axum::extract::rejection::JsonRejection;
use axum::extract::{DefaultBodyLimit, Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use axum::{Extension, Json, Router, middleware};
use futures_util::stream::{self, Stream};
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use serde::Deserialize;
use serde_json::json;
use tokio::net::TcpListener;
use tokio::sync::{oneshot, watch};

use super::command::Command;
use super::crowd::{Address, Seat, Seats};
use super::lesson::named;
use super::room::{self, Asked};
use super::setup::Shown;
use super::views::{Extent, Topic, Views, board};
use super::visitors::{FROM_ONE, NotJoined, TRAINER_STREAMS, VIEWERS, Visitors};
use super::{STYLE, gate, handout};

/// The port that is tried first. Ours: nothing is registered there (from memory).
pub const PORT: u16 = 8_427;
/// Connections at a time, at most; a browser keeps a few for a page.
const CONNECTIONS: usize = 384;
/// Of these, from one address.
const CONNECTIONS_FROM_ONE: usize = 48;
/// Bytes of a request's body, at most.
const BODY: usize = 4_096;
/// Bytes of a request's head, at most. The smallest that hyper takes is 8 KiB.
const HEAD: usize = 16_384;
/// Time for a request's head to arrive.
const HEAD_WITHIN: Duration = Duration::from_secs(10);
/// Commands that wait for the lock.
const QUEUE: usize = 64;
/// How often a stream says that it is there.
const BEAT: Duration = Duration::from_secs(4);

/// What is served.
pub struct Serving {
    /// The site and its lock.
    pub shown: Shown,
    /// Where; `None`: on this machine only.
    pub listen: Option<SocketAddr>,
}

/// It is being served from now on.
pub struct Ready {
    /// The address of the page.
    pub address: String,
    /// What has to be typed before somebody may act; `None` where only this
    /// machine is served, and everybody on it may.
    pub join_code: Option<String>,
    /// The trainer's own link: whoever opens it may act, whatever others do. `None`
    /// where everybody may.
    pub own_link: Option<String>,
}

/// What answers need. Clones are the same.
#[derive(Clone)]
pub(super) struct Hall(Arc<Inside>);

struct Inside {
    asked: SyncSender<Asked>,
    views: watch::Receiver<Views>,
    visitors: Visitors,
    /// Whether everybody may act.
    open: bool,
    port: u16,
    viewers: Arc<Seats>,
    /// Streams of those who may act.
    trainers: Arc<Seats>,
    /// Which run of the program this is: a page that was left open sees it.
    run: String,
}

impl Hall {
    pub(super) fn port(&self) -> u16 {
        self.0.port
    }

    fn may_act(&self, headers: &HeaderMap) -> bool {
        self.0.open
            || token(headers).is_some_and(|token| self.0.visitors.knows(token, Instant::now()))
    }
}

/// Serves the page until the program is ended; `ready` is told where.
///
/// # Errors
/// If the address cannot be listened at, the machine gives no randomness, or `ready`
/// fails.
pub fn serve(serving: Serving, ready: impl FnOnce(&Ready) -> io::Result<()>) -> io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_io()
        .enable_time()
        .build()?;
    runtime.block_on(async {
        let listener = listen(serving.listen).await?;
        let address = listener.local_addr()?;
        let (publisher, views) = board();
        let (ask, asked) = sync_channel(QUEUE);
        room::start(serving.shown, asked, publisher)?;
        let mut run = [0; 8];
        getrandom::fill(&mut run).map_err(io::Error::other)?;
        // Where only this machine is served, everybody has its address.
        let open = address.ip().is_loopback();
        let share = |one: usize, all: usize| if open { all } else { one };
        let room = Arc::new(Seats::new(CONNECTIONS, share(CONNECTIONS_FROM_ONE, CONNECTIONS)));
        let hall = Hall(Arc::new(Inside {
            asked: ask,
            views,
            visitors: Visitors::new().map_err(io::Error::other)?,
            open,
            port: address.port(),
            viewers: Arc::new(Seats::new(VIEWERS, share(FROM_ONE, VIEWERS))),
            trainers: Arc::new(Seats::new(TRAINER_STREAMS, share(FROM_ONE, TRAINER_STREAMS))),
            run: run.iter().map(|byte| format!("{byte:02x}")).collect(),
        }));
        let visitors = &hall.0.visitors;
        ready(&Ready {
            address: format!("http://{address}/"),
            join_code: (!open).then(|| visitors.code().to_owned()),
            own_link: (!open).then(|| format!("http://{address}/#trainer={}", visitors.link())),
        })?;
        accept(listener, room, routes(hall)).await
    })
}

async fn listen(at: Option<SocketAddr>) -> io::Result<TcpListener> {
    let Some(at) = at else {
        let here = IpAddr::V4(Ipv4Addr::LOCALHOST);
        return match TcpListener::bind((here, PORT)).await {
            // Another one is running already: any port does.
            Err(why) if why.kind() == io::ErrorKind::AddrInUse => {
                TcpListener::bind((here, 0)).await
            }
            other => other,
        };
    };
    TcpListener::bind(at).await
}

/// Takes connections in, so many at a time; one more is closed at once. Those from
/// the machine itself always have room: the trainer sits there.
async fn accept(listener: TcpListener, room: Arc<Seats>, routes: Router) -> io::Result<()> {
    let own = Arc::new(Seats::new(CONNECTIONS, CONNECTIONS));
    loop {
        let (stream, peer) = match listener.accept().await {
            Ok(accepted) => accepted,
            // Too many open files, say: those that are open go on.
            Err(_) => {
                tokio::time::sleep(Duration::from_millis(50)).await;
                continue;
            }
        };
        let peer = peer.ip().to_canonical();
        let here = peer.is_loopback() || stream.local_addr().is_ok_and(|own| own.ip() == peer);
        let from = Address::of(peer);
        let Some(seat) = (if here { &own } else { &room }).take(from) else { continue };
        // A key's picture must not wait for more to send.
        let _ = stream.set_nodelay(true);
        let service = TowerToHyperService::new(routes.clone().layer(Extension(from)));
        tokio::spawn(async move {
            let mut http = hyper::server::conn::http1::Builder::new();
            http.timer(TokioTimer::new()).header_read_timeout(HEAD_WITHIN).max_buf_size(HEAD);
            // What goes wrong on one connection ends that connection.
            let _ = http.serve_connection(TokioIo::new(stream), service).await;
            drop(seat);
        });
    }
}

fn routes(hall: Hall) -> Router {
    let script = |text: &'static str| move || async move { asset("text/javascript", text) };
    Router::new()
        .route("/", get(|| async { asset("text/html", include_str!("assets/index.html")) }))
        .route("/page.css", get(|| async { asset("text/css", STYLE) }))
        .route("/page.js", get(script(include_str!("assets/page.js"))))
        .route("/link.js", get(script(include_str!("assets/link.js"))))
        .route("/front.js", get(script(include_str!("assets/front.js"))))
        .route("/week.js", get(script(include_str!("assets/week.js"))))
        .route("/lesson.js", get(script(include_str!("assets/lesson.js"))))
        .route(
            "/icon.svg",
            get(|| async { asset("image/svg+xml", include_str!("assets/icon.svg")) }),
        )
        .route("/handout.css", get(|| async { asset("text/css", handout::STYLE) }))
        .route("/handout/{lesson}", get(on_paper))
        .route("/events", get(events))
        .route("/recording.toml", get(recording))
        .route("/do", post(act))
        .route("/join", post(join))
        .layer(DefaultBodyLimit::max(BODY))
        .layer(middleware::from_fn_with_state(hall.clone(), gate::pass))
        .with_state(hall)
}

fn asset(kind: &'static str, text: &'static str) -> Response {
    ([(header::CONTENT_TYPE, format!("{kind}; charset=utf-8"))], text).into_response()
}

/// An answer that is a sentence.
fn says(status: StatusCode, sentence: &str) -> Response {
    (status, Json(json!({ "says": sentence }))).into_response()
}

async fn act(
    State(hall): State<Hall>,
    headers: HeaderMap,
    command: Result<Json<Command>, JsonRejection>,
) -> Response {
    if !hall.may_act(&headers) {
        return says(StatusCode::FORBIDDEN, "You are watching. Join with the code to act.");
    }
    let command = match command {
        Ok(Json(command)) => command,
        // What was sent is not repeated: a key may be a digit of a code.
        Err(JsonRejection::BytesRejection(_)) => {
            return says(StatusCode::PAYLOAD_TOO_LARGE, "This is too long for a command.");
        }
        Err(_) => return says(StatusCode::BAD_REQUEST, "This is no command that the page knows."),
    };
    let (answer, answered) = oneshot::channel();
    if hall.0.asked.try_send(Asked::Do(command, answer)).is_err() {
        return says(StatusCode::SERVICE_UNAVAILABLE, "The lock is busy. Try again.");
    }
    match answered.await {
        Ok(Ok(())) => (StatusCode::OK, Json(json!({}))).into_response(),
        Ok(Err(why)) => says(StatusCode::CONFLICT, &why),
        Err(_) => says(StatusCode::SERVICE_UNAVAILABLE, "The lock is gone. Start the page anew."),
    }
}

async fn recording(State(hall): State<Hall>, headers: HeaderMap) -> Response {
    if !hall.may_act(&headers) {
        return says(StatusCode::FORBIDDEN, "Only who may act can take the recording.");
    }
    let (answer, answered) = oneshot::channel();
    if hall.0.asked.try_send(Asked::Recording(answer)).is_err() {
        return says(StatusCode::SERVICE_UNAVAILABLE, "The lock is busy. Try again.");
    }
    let Ok(text) = answered.await else {
        return says(StatusCode::SERVICE_UNAVAILABLE, "The lock is gone. Start the page anew.");
    };
    let headers = [
        (header::CONTENT_TYPE, "application/toml"),
        (header::CONTENT_DISPOSITION, "attachment; filename=\"recorded.toml\""),
    ];
    (headers, text).into_response()
}

async fn on_paper(Path(id): Path<String>) -> Response {
    let Some((_, lesson)) = named(&id) else {
        return (StatusCode::NOT_FOUND, "There is no such lesson.").into_response();
    };
    match tokio::task::spawn_blocking(|| handout::page(lesson)).await {
        Ok(Ok(page)) => {
            ([(header::CONTENT_TYPE, "text/html; charset=utf-8")], page).into_response()
        }
        Ok(Err(_)) | Err(_) => {
            (StatusCode::INTERNAL_SERVER_ERROR, "The handout cannot be made.").into_response()
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Join {
    code: Option<String>,
    /// The secret of the trainer's own link.
    link: Option<String>,
}

async fn join(
    State(hall): State<Hall>,
    Extension(from): Extension<Address>,
    join: Result<Json<Join>, JsonRejection>,
) -> Response {
    let (visitors, now) = (&hall.0.visitors, Instant::now());
    let joined = match join {
        Ok(Json(Join { code: Some(code), link: None })) => visitors.join(&code, from, now),
        Ok(Json(Join { code: None, link: Some(link) })) => visitors.join_by_link(&link, now),
        Ok(_) | Err(_) => return says(StatusCode::BAD_REQUEST, "Send the join code."),
    };
    let token = match joined {
        Ok(token) => token,
        Err(NotJoined::Wrong) => return says(StatusCode::FORBIDDEN, "This is not the join code."),
        Err(NotJoined::TooOften) => {
            let sentence = "Too many wrong join codes from where you are. Wait a minute.";
            return says(StatusCode::TOO_MANY_REQUESTS, sentence);
        }
        Err(NotJoined::Full) => {
            let sentence = "As many trainers have joined as there can be.";
            return says(StatusCode::SERVICE_UNAVAILABLE, sentence);
        }
    };
    let cookie = format!("{COOKIE}={token}; HttpOnly; SameSite=Strict; Path=/");
    ([(header::SET_COOKIE, cookie)], Json(json!({}))).into_response()
}

const COOKIE: &str = "trainer";

fn token(headers: &HeaderMap) -> Option<&str> {
    let cookies = headers.get_all(header::COOKIE).iter().filter_map(|value| value.to_str().ok());
    let mut pairs = cookies.flat_map(|text| text.split(';')).map(str::trim);
    pairs.find_map(|pair| pair.strip_prefix(COOKIE)?.strip_prefix('='))
}

async fn events(
    State(hall): State<Hall>,
    Extension(from): Extension<Address>,
    headers: HeaderMap,
) -> Response {
    let acts = hall.may_act(&headers);
    // Viewers never take a trainer's seat.
    let seats = if acts && !hall.0.open { &hall.0.trainers } else { &hall.0.viewers };
    let Some(seat) = seats.take(from) else {
        return says(StatusCode::SERVICE_UNAVAILABLE, "As many are watching as there is room for.");
    };
    let you = json!({ "run": hall.0.run, "may_act": acts, "open": hall.0.open });
    let watching = Watching {
        views: hall.0.views.clone(),
        acts,
        extent: Extent::Everything,
        seen: [0; Topic::ALL.len()],
        you: Some(you),
        _seat: seat,
    };
    let alive = KeepAlive::new().interval(BEAT).event(Event::default().event("beat").data(""));
    Sse::new(watching.stream()).keep_alive(alive).into_response()
}

/// One viewer: what they have been sent.
struct Watching {
    views: watch::Receiver<Views>,
    /// Whether they may act: then nothing is withheld.
    acts: bool,
    /// The extent of what they have been sent.
    extent: Extent,
    seen: [u64; Topic::ALL.len()],
    you: Option<serde_json::Value>,
    _seat: Seat,
}

impl Watching {
    /// An event a topic that has changed; a viewer who takes long is sent the
    /// newest.
    fn stream(self) -> impl Stream<Item = Result<Event, Infallible>> {
        stream::unfold(self, |mut watching| async move {
            if let Some(you) = watching.you.take() {
                let event = Event::default().event("you").data(you.to_string());
                return Some((Ok(event), watching));
            }
            loop {
                if let Some(event) = watching.next() {
                    return Some((Ok(event), watching));
                }
                // The room is gone: so is this stream.
                watching.views.changed().await.ok()?;
            }
        })
    }

    fn next(&mut self) -> Option<Event> {
        let views = self.views.borrow_and_update();
        let extent = if self.acts { Extent::Everything } else { views.extent() };
        if extent != self.extent {
            (self.extent, self.seen) = (extent, [0; Topic::ALL.len()]);
        }
        for ((topic, view), seen) in views.all(extent).zip(&mut self.seen) {
            if *seen != view.version {
                *seen = view.version;
                return Some(Event::default().event(topic.name()).data(&*view.json));
            }
        }
        None
    }
}
