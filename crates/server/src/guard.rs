//! Who may ask at all. The server answers on the loopback address only; what is left to fear are pages from elsewhere in the same browser.
//!
//! * A name of elsewhere that leads here (DNS rebinding) is refused by the host header.
//! * A write must show the token that only our own pages carry, and must not come from another origin.
//! * No script but our own files, no frame around our pages, nothing fetched from elsewhere.

use crate::locale::locale_of;
use crate::office::Office;
use crate::refused::{Refused, in_language};
use axum::extract::{Request, State};
use axum::http::header::{self, HeaderName, HeaderValue};
use axum::http::{HeaderMap, Method};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use latchline_words::office::OfficeRefusal;
use std::sync::{Arc, PoisonError};
use std::time::Duration;

/// Name of the header that carries the token.
pub(crate) const TOKEN: HeaderName = HeaderName::from_static("x-latchline-token");
/// Largest body of a request, in bytes.
pub(crate) const LARGEST_BODY: usize = 8_000_000;
/// Longest address of a page, in bytes.
const LONGEST_ADDRESS: usize = 4_096;
/// Writes in any second.
const MOST_WRITES: usize = 40;
/// Longest time until an answer begins.
const LONGEST_WAIT: Duration = Duration::from_secs(60);

/// Nothing from elsewhere, no script but our own files, no frame around us.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; \
                      form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Lets through what a page of ours may ask, and marks every answer.
pub(crate) async fn guard(State(office): State<Arc<Office>>, request: Request, next: Next) -> Response {
    let language = locale_of(request.headers()).language;
    let answer = match judged(&office, &request) {
        Err(refused) => refused.into_response(),
        Ok(()) => match tokio::time::timeout(LONGEST_WAIT, next.run(request)).await {
            Ok(answer) => answer,
            Err(_) => Refused::Busy(OfficeRefusal::TakesTooLong).into_response(),
        },
    };
    marked(in_language(answer, language))
}

fn judged(office: &Office, request: &Request) -> Result<(), Refused> {
    let headers = request.headers();
    let text = |name| headers.get(name).and_then(|value: &HeaderValue| value.to_str().ok());
    let host = text(header::HOST).ok_or(Refused::Forbidden(OfficeRefusal::NoHost))?;
    if headers.get_all(header::HOST).iter().count() > 1 || !is_here(host) {
        return Err(Refused::Forbidden(OfficeRefusal::OtherHost));
    }
    if request.uri().to_string().len() > LONGEST_ADDRESS {
        return Err(Refused::Unfit(OfficeRefusal::AddressTooLong.both()));
    }
    match *request.method() {
        Method::GET | Method::HEAD => Ok(()),
        Method::POST => {
            from_ourselves(headers, host)?;
            let shown = text(TOKEN).unwrap_or_default();
            if !same(shown.as_bytes(), office.options.token.as_bytes()) {
                return Err(Refused::Forbidden(OfficeRefusal::OtherRun));
            }
            slowly(office)
        }
        _ => Err(Refused::Forbidden(OfficeRefusal::OtherMethod)),
    }
}

/// Whether a host header names this machine.
fn is_here(host: &str) -> bool {
    let name = host.strip_prefix('[').map_or_else(
        || host.split_once(':').map_or(host, |(name, _)| name),
        |rest| rest.split_once(']').map_or("", |(name, _)| name),
    );
    matches!(name.to_ascii_lowercase().as_str(), "localhost" | "127.0.0.1" | "::1")
}

/// A write comes from a page of ours: the browser says so, where it says anything.
fn from_ourselves(headers: &HeaderMap, host: &str) -> Result<(), Refused> {
    let elsewhere = Err(Refused::Forbidden(OfficeRefusal::OtherSite));
    if let Some(site) = headers.get("sec-fetch-site")
        && site != "same-origin"
    {
        return elsewhere;
    }
    match headers.get(header::ORIGIN) {
        Some(origin) if origin.as_bytes() != format!("http://{host}").as_bytes() => elsewhere,
        _ => Ok(()),
    }
}

/// Compares without telling by the time it takes how much agrees.
fn same(a: &[u8], b: &[u8]) -> bool {
    a.len() == b.len() && a.iter().zip(b).fold(0, |different, (a, b)| different | (a ^ b)) == 0
}

/// Refuses writes that come faster than any person makes them.
fn slowly(office: &Office) -> Result<(), Refused> {
    let now = (office.options.clock)();
    let mut writes = office.writes.lock().unwrap_or_else(PoisonError::into_inner);
    writes.retain(|at| (now - 1_000..=now).contains(at));
    if writes.len() >= MOST_WRITES {
        return Err(Refused::Busy(OfficeRefusal::TooMuchAtOnce));
    }
    writes.push_back(now);
    Ok(())
}

/// Every answer says what a browser may do with it.
fn marked(mut answer: Response) -> Response {
    let headers = answer.headers_mut();
    let mut put = |name: HeaderName, value: &'static str| {
        headers.entry(name).or_insert(HeaderValue::from_static(value));
    };
    put(header::CONTENT_SECURITY_POLICY, POLICY);
    put(header::X_CONTENT_TYPE_OPTIONS, "nosniff");
    put(header::REFERRER_POLICY, "no-referrer");
    put(HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    put(HeaderName::from_static("cross-origin-resource-policy"), "same-origin");
    put(HeaderName::from_static("permissions-policy"), "camera=(), microphone=(), geolocation=()");
    put(header::CACHE_CONTROL, "no-store");
    answer
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_of_this_machine_are_answered() {
        for host in ["localhost:8080", "127.0.0.1", "127.0.0.1:1", "[::1]:8080", "LocalHost"] {
            assert!(is_here(host), "{host}");
        }
        for host in
            ["", "evil.example", "localhost.evil.example", "127.0.0.1.evil.example:8080", "[::2]:1", "::1"]
        {
            assert!(!is_here(host), "{host}");
        }
    }

    #[test]
    fn a_token_is_compared_whole() {
        assert!(same(b"abc", b"abc"));
        assert!(!same(b"abc", b"abd") && !same(b"", b"abc") && !same(b"abc", b"abcd"));
    }
}
