//! Whose request is refused before anything is done with it, and what every
//! answer says to the browser.
//!
//! A page from elsewhere that a browser has open must not reach the lock: not by
//! sending (`Origin`), not by a name of its own for this machine's address
//! (`Host`), not by showing the page in a frame.

use std::net::IpAddr;

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};
use std::time::Duration;

use super::server::Hall;

/// What an answer may take, streams apart.
const PATIENCE: Duration = Duration::from_secs(10);

/// What every answer carries.
pub const HEADERS: [(HeaderName, &str); 6] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; \
         connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    (header::CACHE_CONTROL, "no-store"),
];

/// Lets a request through, or answers it.
pub(super) async fn pass(State(hall): State<Hall>, request: Request, next: Next) -> Response {
    let mut answer = match refusal(request.headers(), request.method(), hall.port()) {
        Some(why) => (StatusCode::FORBIDDEN, why).into_response(),
        None => match tokio::time::timeout(PATIENCE, next.run(request)).await {
            Ok(answer) => answer,
            Err(_) => (StatusCode::REQUEST_TIMEOUT, "This took too long.").into_response(),
        },
    };
    for (name, value) in HEADERS {
        answer.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    answer
}

/// Why a request is refused, if it is.
fn refusal(headers: &HeaderMap, method: &Method, port: u16) -> Option<&'static str> {
    let text = |name| headers.get(name).map(|value: &HeaderValue| value.to_str().unwrap_or(""));
    let Some(host) = text(header::HOST) else { return Some("A request names its host.") };
    if headers.get_all(header::HOST).iter().count() > 1 || !is_ours(host, port) {
        return Some("This host name is not that of the trainer's page.");
    }
    let safe = [Method::GET, Method::HEAD].contains(method);
    match text(header::ORIGIN) {
        Some(origin) if origin.strip_prefix("http://") == Some(host) => None,
        Some(_) => Some("Another page's request is not taken."),
        None if safe => None,
        None => Some("A request that changes something names its origin."),
    }
}

/// Whether `host` is an address of a machine, or its name for itself. A name that
/// somebody else gave to this machine's address is not.
fn is_ours(host: &str, port: u16) -> bool {
    let Some((name, its_port)) = host.rsplit_once(':') else {
        // Without a port: that of HTTP.
        return port == 80 && is_address(host);
    };
    if host.ends_with(']') {
        return port == 80 && is_address(host);
    }
    its_port.parse() == Ok(port) && is_address(name)
}

fn is_address(name: &str) -> bool {
    let bare = name.strip_prefix('[').and_then(|name| name.strip_suffix(']'));
    match bare {
        Some(inner) => inner.parse::<IpAddr>().is_ok_and(|address| address.is_ipv6()),
        None => {
            name.eq_ignore_ascii_case("localhost")
                || name.parse::<IpAddr>().is_ok_and(|address| address.is_ipv4())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answer(host: Option<&str>, origin: Option<&str>, method: Method) -> bool {
        let mut headers = HeaderMap::new();
        for (name, value) in [(header::HOST, host), (header::ORIGIN, origin)] {
            headers.extend(value.map(|value| (name, HeaderValue::from_str(value).unwrap())));
        }
        refusal(&headers, &method, 8427).is_none()
    }

    #[test]
    fn only_this_machines_own_pages_get_through() {
        for host in ["127.0.0.1:8427", "localhost:8427", "[::1]:8427", "192.168.7.20:8427"] {
            let origin = format!("http://{host}");
            assert!(answer(Some(host), None, Method::GET), "{host}");
            assert!(answer(Some(host), Some(&origin), Method::POST), "{host}");
            assert!(!answer(Some(host), None, Method::POST), "{host}");
            for foreign in
                ["null", "https://example.org", "http://127.0.0.1:1", "http://localhost", ""]
            {
                assert!(!answer(Some(host), Some(foreign), Method::POST), "{host} {foreign}");
                assert!(!answer(Some(host), Some(foreign), Method::GET), "{host} {foreign}");
            }
        }
        for host in
            ["example.org:8427", "127.0.0.1", "127.0.0.1:80", "localhost.example.org:8427", "", ":"]
        {
            assert!(!answer(Some(host), None, Method::GET), "{host}");
        }
        assert!(!answer(None, None, Method::GET));
    }
}
