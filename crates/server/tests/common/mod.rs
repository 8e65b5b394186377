//! A server with one site, on a port of its own.
#![allow(clippy::unwrap_used, clippy::disallowed_methods, reason = "tests may fail")]

use latchline_finding::Both;
use latchline_server::{Folder, Initial, Office, Options, serve};
use latchline_store::{LiveError, LiveFolder, Sqlite, Store};
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

pub const SITE: &str = include_str!("../../../latchline/src/demo/starter.toml");
pub const TOKEN: &str = "0123456789abcdef";

/// Live files in a folder that nobody else writes to.
#[derive(Debug)]
struct Live(PathBuf);

impl LiveFolder for Live {
    fn read(&self, path: &str, _: usize) -> Result<Option<Vec<u8>>, LiveError> {
        Ok(std::fs::read(self.0.join(path)).ok())
    }

    fn replace(&self, path: &str, _: Option<&[u8]>, text: &str) -> Result<(), LiveError> {
        std::fs::write(self.0.join(path), text)
            .map_err(|error| LiveError::Failed(Both::same(error.to_string())))
    }
}

/// A server on a port of its own, until dropped.
pub struct Served {
    /// Kept as long as the server runs.
    _folder: tempfile::TempDir,
    pub at: SocketAddr,
    stop: Option<tokio::sync::oneshot::Sender<()>>,
    thread: Option<std::thread::JoinHandle<()>>,
}

impl Served {
    pub fn with(text: &str) -> Served {
        Served::beside(text, None)
    }

    /// With its files kept in a folder, where one more lies.
    pub fn beside(text: &str, other: Option<(&str, &str)>) -> Served {
        let options = Options { token: TOKEN.into(), clock, engine: "test", demo: SITE, keeps_record: true };
        let files = vec![(String::from("site.toml"), text.to_string())];
        let folder = tempfile::tempdir().unwrap();
        let store = Store::new(Sqlite::open(&folder.path().join("store.db")).unwrap()).unwrap();
        let sites = [Initial { name: "house".into(), files }];
        let live = other.map(|(name, text)| {
            let folder = folder.path().join("live");
            std::fs::create_dir(&folder).unwrap();
            std::fs::write(folder.join(name), text).unwrap();
            Box::new(Live(folder)) as Folder
        });
        let office: Arc<Office> = Office::new(options, store, &sites, live).unwrap();
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let at = listener.local_addr().unwrap();
        let (stop, stopped) = tokio::sync::oneshot::channel::<()>();
        let thread = std::thread::spawn(move || {
            let runtime =
                tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build().unwrap();
            runtime.block_on(serve(listener, office, async { drop(stopped.await) })).unwrap();
            runtime.shutdown_background();
        });
        Served { _folder: folder, at, stop: Some(stop), thread: Some(thread) }
    }

    pub fn new() -> Served {
        Served::with(SITE)
    }

    /// Sends bytes and reads until the server closes or three seconds have passed.
    pub fn raw(&self, request: &[u8]) -> String {
        let mut stream = TcpStream::connect(self.at).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        let _ = stream.write_all(request);
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        String::from_utf8_lossy(&answer).into_owned()
    }

    pub fn get(&self, path: &str) -> String {
        self.raw(format!("GET {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\r\n", self.at).as_bytes())
    }

    pub fn post(&self, path: &str, headers: &str, body: &str) -> String {
        let head = format!(
            "POST {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: {}\r\n{headers}\r\n",
            self.at,
            body.len()
        );
        self.raw(format!("{head}{body}").as_bytes())
    }

    pub fn undo(&self, id: &str) -> String {
        let body = format!("{{\"id\":\"{id}\",\"client\":\"t\"}}");
        self.post("/sites/house/undo", &format!("x-latchline-token: {TOKEN}\r\n"), &body)
    }

    pub fn edit(&self, id: &str, base: i64, change: &str) -> String {
        let body = format!("{{\"id\":\"{id}\",\"client\":\"t\",\"base\":{base},\"change\":{change}}}");
        self.post("/sites/house/edit", &format!("x-latchline-token: {TOKEN}\r\n"), &body)
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        if let Some(stop) = self.stop.take() {
            let _: Result<(), ()> = stop.send(());
        }
        if let Some(thread) = self.thread.take() {
            thread.join().unwrap();
        }
    }
}

fn clock() -> i64 {
    std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_millis() as i64
}

pub fn status(answer: &str) -> u16 {
    answer.get(9..12).and_then(|code| code.parse().ok()).unwrap_or(0)
}
