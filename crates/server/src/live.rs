//! What changes on a page, as it comes in: one stream a page, each message said to be of its revision.

use crate::engine::opened;
use crate::locale::Reader;
use crate::office::Office;
use crate::printed::{PageState, difference, print};
use crate::refused::Refused;
use crate::work::State as SiteState;
use axum::extract::{Path, Query, State};
use axum::response::sse::{Event, Sse};
use futures_util::stream::{self, Stream};
use latchline_finding::Locale;
use serde::Deserialize;
use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::watch;

/// After so long without news a line is sent, so that a page knows that the server is still there.
const HEARTBEAT: Duration = Duration::from_secs(15);

/// Which page listens.
#[derive(Debug, Deserialize)]
pub(crate) struct Who {
    #[serde(default)]
    client: String,
}

/// The page at the other end.
struct OnPage {
    office: Arc<Office>,
    site: String,
    client: String,
    locale: Locale,
}

struct Listening {
    page: Arc<OnPage>,
    news: watch::Receiver<Option<Arc<SiteState>>>,
    stopping: watch::Receiver<bool>,
    had: Option<Arc<PageState>>,
    first: bool,
}

/// Why a stream goes on, or does not.
enum Woken {
    News,
    Nothing,
    End,
}

async fn woken(at: &mut Listening) -> Woken {
    tokio::select! {
        changed = at.news.changed() => if changed.is_ok() { Woken::News } else { Woken::End },
        _ = at.stopping.wait_for(|stopping| *stopping) => Woken::End,
        () = tokio::time::sleep(HEARTBEAT) => Woken::Nothing,
    }
}

/// The stream of a site.
pub(crate) async fn live(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Query(who): Query<Who>,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, Refused> {
    let (work, _) = opened(&office, &name).await?;
    let stopping = office.stopping.subscribe();
    let page = Arc::new(OnPage { office, site: name, client: who.client, locale });
    let listening = Listening { page, news: work.news(), stopping, had: None, first: true };
    Ok(Sse::new(stream::unfold(listening, next)))
}

/// The next message: what differs from the last, or that the server is still there.
async fn next(mut at: Listening) -> Option<(Result<Event, Infallible>, Listening)> {
    loop {
        if !std::mem::take(&mut at.first) {
            match woken(&mut at).await {
                Woken::News => {}
                Woken::Nothing => return Some((Ok(Event::default().comment("here")), at)),
                Woken::End => return None,
            }
        }
        let Some(state) = at.news.borrow_and_update().clone() else { continue };
        let (had, page) = (at.had.clone(), Arc::clone(&at.page));
        let printed = tokio::task::spawn_blocking(move || {
            let turns = page.office.archive.turns(&page.site, &page.client);
            let files = page.office.archive.files(&page.site);
            let now = print(&state, turns, &files, page.locale);
            let message = difference(had.as_deref(), &now).to_string();
            (now, message)
        });
        let (now, message) = printed.await.ok()?;
        if at.had.as_deref() == Some(&now) {
            continue;
        }
        at.had = Some(Arc::new(now));
        return Some((Ok(Event::default().event("state").data(message)), at));
    }
}
