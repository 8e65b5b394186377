//! What comes to the office page: edits, and requests of any kind.

use super::house::HOUSE;
use latchline_server::{Initial, Office, Options, answered};
use latchline_store::{Sqlite, Store};
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

/// What a page of ours would show.
const TOKEN: &str = "0123456789abcdef";
/// Edits that are made one after the other.
const MOST_EDITS: usize = 4;
/// Milliseconds that pass between two looks at the clock: writes are never too fast.
const TICK_MS: i64 = 1_000;

/// A clock that goes on by itself.
fn clock() -> i64 {
    static NOW_MS: AtomicI64 = AtomicI64::new(1_700_000_000_000);
    NOW_MS.fetch_add(TICK_MS, Ordering::Relaxed)
}

/// As what is asked for in an edit, one a line; then the site is looked at.
pub fn edits(bytes: &[u8]) {
    let mut said = Vec::new();
    for (number, change) in bytes.split(|byte| *byte == b'\n').take(MOST_EDITS).enumerate() {
        let head = format!("{{\"id\":\"{number}\",\"client\":\"c\",\"base\":{},\"change\":", number + 1);
        let body = [head.as_bytes(), change, b"}"].concat();
        for what in ["preview", "edit"] {
            let request = format!(
                "POST /sites/house/{what} HTTP/1.1\r\nHost: localhost\r\nx-latchline-token: {TOKEN}\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n",
                body.len()
            );
            said.extend(request.as_bytes());
            said.extend(&body);
        }
    }
    for page in ["/sites/house", "/sites/house/history"] {
        said.extend(format!("GET {page} HTTP/1.1\r\nHost: localhost\r\n\r\n").as_bytes());
    }
    let answers = answers(said);
    let told = String::from_utf8_lossy(&answers);
    assert!(!told.contains("HTTP/1.1 500"), "the server broke on it: {told:.2000}");
    assert!(
        told.matches("HTTP/1.1 200").count() >= 2,
        "whatever was edited, the pages can be seen: {told:.2000}"
    );
}

/// Addresses whose answer is reckoned for seconds in a program that counts its own steps.
const SLOW: [&[u8]; 2] = [b"/questions ", b"/questions?"];

/// As all that a connection says.
pub fn requests(bytes: &[u8]) {
    if SLOW.iter().any(|slow| bytes.windows(slow.len()).any(|at| at == *slow)) {
        return;
    }
    let answers = answers(bytes.to_vec());
    let told = String::from_utf8_lossy(&answers);
    assert!(!told.contains("HTTP/1.1 500"), "the server broke on it: {told:.2000}");
}

/// What an office with the house answers; it is a new one for every input, so that each can be tried again alone.
fn answers(said: Vec<u8>) -> Vec<u8> {
    let folder = tempfile::tempdir().expect("a folder");
    let store = Sqlite::open(&folder.path().join("store.db")).expect("a store");
    let store = Store::new(store).expect("an empty store");
    let options =
        Options { token: String::from(TOKEN), clock, engine: "fuzz", demo: HOUSE, keeps_record: true };
    let files = vec![(String::from("site.toml"), String::from(HOUSE))];
    let office: Arc<Office> =
        Office::new(options, store, &[Initial { name: String::from("house"), files }], None)
            .expect("an office");
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    runtime.block_on(answered(office, said))
}
