//! What changes on a page, as it comes in: one stream a page, each message said to be of its revision.

use crate::locale::Reader;
use crate::office::Office;
use crate::printed::{PageState, difference, print};
use crate::refused::Refused;
use crate::routes::opened;
use crate::work::State as SiteState;
use axum::extract::{Path, Query, State};
use axum::response::sse::{Event, Sse};
use serde::Deserialize;
use futures_util::stream::{self, Stream};
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

struct Listening {
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
    let listening =
        Listening { news: work.news(), stopping: office.stopping.subscribe(), had: None, first: true };
    let about = Arc::new((office, name, who.client));
    let stream = stream::unfold(listening, move |mut at| {
        let about = Arc::clone(&about);
        async move {
        loop {
            if !std::mem::take(&mut at.first) {
                match woken(&mut at).await {
                    Woken::News => {}
                    Woken::Nothing => return Some((Ok(Event::default().comment("here")), at)),
                    Woken::End => return None,
                }
            }
            let Some(state) = at.news.borrow_and_update().clone() else { continue };
            let had = at.had.clone();
            let about = Arc::clone(&about);
            let printed = tokio::task::spawn_blocking(move || {
                let turns = about.0.archive.turns(&about.1, &about.2);
                let now = print(&state, turns, locale);
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
    });
    Ok(Sse::new(stream))
}
