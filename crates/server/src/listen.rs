//! Connections: taken, served, ended.

use crate::engine::look_at_files;
use crate::office::Office;
use crate::routes;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use std::future::Future;
use std::net::TcpListener;
use std::pin::pin;
use std::sync::Arc;
use std::time::Duration;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::sync::Semaphore;

/// Connections at once.
const MOST_CONNECTIONS: usize = 64;
/// Longest time that the head of a request takes to come in.
const SLOWEST_HEAD: Duration = Duration::from_secs(10);
/// How often the files of open sites are looked at: soon enough for somebody who has just saved one and looks up.
const BETWEEN_LOOKS: Duration = Duration::from_secs(1);
/// Room for what goes to and fro where there is no socket.
const LEAST_BUFFER: usize = 65_536;
/// How long open requests may go on after the server was told to stop.
const LAST_WORDS: Duration = Duration::from_secs(3);

/// Answers on the listener until `stop` comes; then no new request is taken, streams end, and what is under way has three seconds.
///
/// # Errors
/// If the listener cannot be used.
pub async fn serve(
    listener: TcpListener,
    office: Arc<Office>,
    stop: impl Future<Output = ()>,
) -> std::io::Result<()> {
    listener.set_nonblocking(true)?;
    let listener = tokio::net::TcpListener::from_std(listener)?;
    let app = routes::routes(Arc::clone(&office));
    let watching = tokio::spawn(watch_files(Arc::clone(&office)));
    let seats = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    let mut open = tokio::task::JoinSet::new();
    let mut stop = pin!(stop);
    loop {
        let stream = tokio::select! {
            () = &mut stop => break,
            taken = listener.accept() => match taken {
                Ok((stream, _)) => stream,
                // One connection that went wrong does not end the others.
                Err(_) => {
                    tokio::time::sleep(Duration::from_millis(50)).await;
                    continue;
                }
            },
        };
        while open.try_join_next().is_some() {}
        let Ok(seat) = Arc::clone(&seats).try_acquire_owned() else { continue };
        let service = TowerToHyperService::new(app.clone());
        let mut stopping = office.stopping.subscribe();
        open.spawn(async move {
            let _seat = seat;
            // Small answers must not wait for company.
            let _: std::io::Result<()> = stream.set_nodelay(true);
            let connection = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(SLOWEST_HEAD)
                .serve_connection(TokioIo::new(stream), service);
            let mut connection = pin!(connection);
            tokio::select! {
                _ = connection.as_mut() => return,
                _ = stopping.wait_for(|stopping| *stopping) => connection.as_mut().graceful_shutdown(),
            }
            let _: hyper::Result<()> = connection.await;
        });
    }
    watching.abort();
    office.stopping.send_replace(true);
    let all = async { while open.join_next().await.is_some() {} };
    let _: Result<(), _> = tokio::time::timeout(LAST_WORDS, all).await;
    Ok(())
}

/// What the office answers on a connection over which all was said already: for trying requests without a socket. The office is stopping
/// from the beginning: streams end with what they have, and nothing is worked out beyond what an answer waits for.
pub async fn answered(office: Arc<Office>, said: Vec<u8>) -> Vec<u8> {
    office.stopping.send_replace(true);
    let service = TowerToHyperService::new(routes::routes(office));
    let (mut asking, answering) = tokio::io::duplex(said.len().max(LEAST_BUFFER));
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(SLOWEST_HEAD)
        .half_close(true)
        .serve_connection(TokioIo::new(answering), service);
    let mut answers = Vec::new();
    let asked = async {
        // Who answers may have closed before all was said, or read.
        let _: std::io::Result<()> = asking.write_all(&said).await;
        let _: std::io::Result<()> = asking.shutdown().await;
        let _: std::io::Result<usize> = asking.read_to_end(&mut answers).await;
    };
    let _: (hyper::Result<()>, ()) = tokio::join!(connection, asked);
    answers
}

/// Looks at the files of open sites now and then.
async fn watch_files(office: Arc<Office>) {
    loop {
        tokio::time::sleep(BETWEEN_LOOKS).await;
        let office = Arc::clone(&office);
        let _: Result<(), _> = tokio::task::spawn_blocking(move || look_at_files(&office)).await;
    }
}
