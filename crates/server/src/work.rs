//! An open site: its session, and what is known of its newest revision, stage by stage.

use crate::refused::Refused;
use latchline_assess::jobs::Jobs;
use latchline_assess::{Assessment, NotJudged, VoltageResults};
use latchline_finding::{Both, Finding, Money, SourceFile, Sources};
use latchline_reach::Headroom;
use latchline_session::{CatalogueReader, Files, Session, Standing, View};
use latchline_site::builtin_catalogue;
use latchline_site::edit;
use latchline_store::{State as Kept, Texts};
use latchline_words::office::OfficeRefusal;
use latchline_words::terms::Term;
use std::collections::{BTreeMap, VecDeque};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::watch;

/// Views that are kept, so that an edit made on one of them can be held against what was there.
const MOST_VIEWS: usize = 16;

/// What is known of one revision at one moment.
#[derive(Debug, Clone)]
pub(crate) struct State {
    /// The revision.
    pub number: i64,
    /// What it changed, as it was said.
    pub note: String,
    /// The session's view of it.
    pub view: View,
    /// What is known of the verdict.
    pub standing: Standing,
    /// Voltages and currents; `None` where the text cannot be used.
    pub results: Option<Arc<VoltageResults>>,
    /// What was found so far, in reading and by the rules, worst first.
    pub findings: Arc<Vec<Finding>>,
    /// What could not be judged so far.
    pub not_judged: Arc<Vec<NotJudged>>,
    /// The whole, once every stage is in.
    pub assessment: Option<Arc<Assessment>>,
    /// Whether remedies were looked for; they are in the findings then.
    pub remedies: bool,
    /// What is to be done, once remedies were looked for.
    pub jobs: Option<Arc<Jobs>>,
    /// How much more it carries.
    pub headroom: Option<Arc<Vec<Headroom>>>,
    /// Material of all that has a price, and how many parts have none.
    pub price: Option<(Money, usize)>,
    /// What the revision before had.
    pub before: Option<Arc<Before>>,
}

impl State {
    /// The currency of the catalogues; empty where they state none.
    pub fn currency(&self) -> &str {
        self.view.site().map_or("", |site| site.catalogue.currency.as_str())
    }
}

/// Figures of the revision before.
#[derive(Debug)]
pub(crate) struct Before {
    pub number: i64,
    pub results: Option<Arc<VoltageResults>>,
    pub price: Option<Money>,
}

struct Inner {
    session: Session,
    catalogues: Vec<(String, Arc<str>)>,
    views: VecDeque<(i64, View)>,
}

/// What a site names and the store has not taken in from the folder is not there.
#[derive(Debug)]
struct TheStoreAlone;

impl CatalogueReader for TheStoreAlone {
    fn read(&self, _path: &str) -> Result<SourceFile, Both> {
        Err(Term::NotBesideTheSite.both())
    }
}

fn session_of(texts: &Texts) -> Session {
    let mut sources = Sources::new();
    let site_file = sources.add(texts.site_path(), Arc::clone(texts.site_text()));
    let (builtin_name, builtin_text) = builtin_catalogue();
    let catalogues = vec![sources.add(builtin_name, builtin_text)];
    let mut named = BTreeMap::new();
    for (path, text) in texts.catalogues() {
        named.insert(path.to_string(), sources.add(path, Arc::clone(text)));
    }
    Session::new(Files { sources, site_file, catalogues, named }).with_reader(TheStoreAlone)
}

fn catalogues_of(texts: &Texts) -> Vec<(String, Arc<str>)> {
    texts.catalogues().map(|(path, text)| (path.to_string(), Arc::clone(text))).collect()
}

/// An open site.
pub(crate) struct Work {
    pub name: String,
    inner: Mutex<Inner>,
    news: watch::Sender<Option<Arc<State>>>,
}

impl Work {
    /// Opens a session on its newest texts.
    pub fn new(name: &str, head: &Kept) -> Self {
        let session = session_of(&head.texts);
        let views = VecDeque::from([(head.revision.number.0, session.view())]);
        Work {
            name: name.to_string(),
            inner: Mutex::new(Inner { session, catalogues: catalogues_of(&head.texts), views }),
            news: watch::Sender::new(None),
        }
    }

    fn inner(&self) -> MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Tells pages to look again: something beside the state has changed.
    pub fn nudge(&self) {
        self.news.send_modify(|_| {});
    }

    /// Told whenever more is known.
    pub fn news(&self) -> watch::Receiver<Option<Arc<State>>> {
        self.news.subscribe()
    }

    /// What is known now.
    pub fn now(&self) -> Option<Arc<State>> {
        self.news.borrow().clone()
    }

    /// Puts what is known of a newer revision in the place of what was known.
    pub fn publish(&self, state: State) {
        self.news.send_replace(Some(Arc::new(state)));
    }

    /// Tells more of the newest state; nothing if a newer one has come.
    pub fn tell(&self, number: i64, change: impl FnOnce(&mut State)) {
        self.news.send_if_modified(|known| match known {
            Some(state) if state.number == number => {
                change(Arc::make_mut(state));
                true
            }
            _ => false,
        });
    }

    /// The view of the newest revision, with its number.
    pub fn view(&self) -> (i64, View) {
        let inner = self.inner();
        (inner.views.back().map_or(0, |(number, _)| *number), inner.session.view())
    }

    /// The view that a page made its edit on, if it is still known.
    pub fn view_of(&self, number: i64) -> Option<View> {
        self.inner().views.iter().find(|(known, _)| *known == number).map(|(_, view)| view.clone())
    }

    /// Goes to the newest revision, unless it is there or beyond already.
    pub fn go_to(&self, head: &Kept) -> Result<Option<View>, Refused> {
        let mut inner = self.inner();
        let number = head.revision.number.0;
        if inner.views.back().is_some_and(|(known, _)| *known >= number) {
            return Ok(None);
        }
        let catalogues = catalogues_of(&head.texts);
        if inner.catalogues == catalogues {
            let change = edit::difference(inner.session.view().text(), head.texts.site_text());
            inner.session.edit(&change).map_err(|_| Refused::Broken(OfficeRefusal::RevisionsApart))?;
        } else {
            inner.session = session_of(&head.texts);
            inner.catalogues = catalogues;
        }
        let view = inner.session.view();
        inner.views.push_back((number, view.clone()));
        if inner.views.len() > MOST_VIEWS {
            inner.views.pop_front();
        }
        Ok(Some(view))
    }
}
