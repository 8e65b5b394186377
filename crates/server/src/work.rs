//! An open site: its session, and what is known of its newest revision, stage by stage.

use crate::office::Office;
use crate::refused::Refused;
use latchline_assess::jobs::Jobs;
use latchline_assess::{Assessment, GivenUp, NotJudged, VoltageResults};
use latchline_finding::{Finding, Money, Sources};
use latchline_reach::Headroom;
use latchline_session::{Files, Session, Standing, View};
use latchline_site::bill::Bill;
use latchline_site::builtin_catalogue;
use latchline_site::edit;
use latchline_store::{Revision, State as Kept, Texts};
use std::collections::VecDeque;
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

fn session_of(texts: &Texts) -> Session {
    let mut sources = Sources::new();
    let site_file = sources.add(texts.site_path(), Arc::clone(texts.site_text()));
    let (builtin_name, builtin_text) = builtin_catalogue();
    let mut catalogues = vec![sources.add(builtin_name, builtin_text)];
    for (path, text) in texts.catalogues() {
        catalogues.push(sources.add(path, Arc::clone(text)));
    }
    Session::new(Files { sources, site_file, catalogues })
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
    fn go_to(&self, head: &Kept) -> Result<Option<View>, Refused> {
        let mut inner = self.inner();
        let number = head.revision.number.0;
        if inner.views.back().is_some_and(|(known, _)| *known >= number) {
            return Ok(None);
        }
        let catalogues = catalogues_of(&head.texts);
        if inner.catalogues == catalogues {
            let change = edit::difference(inner.session.view().text(), head.texts.site_text());
            inner
                .session
                .edit(&change)
                .map_err(|_| Refused::Broken("a revision does not follow from the one before"))?;
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

/// Goes to what the store holds as newest: voltages at once, the rest is begun.
pub(crate) fn arrive(office: &Arc<Office>, work: &Arc<Work>) -> Result<(), Refused> {
    let before = work.now().map(|state| {
        Arc::new(Before {
            number: state.number,
            results: state.results.clone(),
            price: state.price.map(|(price, _)| price),
        })
    });
    let head = office.archive.head(&work.name)?;
    if let Some(view) = work.go_to(&head)? {
        publish_first(work, first_state(view, &head.revision, before));
        think(office, work);
    }
    Ok(())
}

/// Makes sure that something is known of the newest revision: voltages now, the rest is begun.
pub(crate) fn begin(office: &Arc<Office>, work: &Arc<Work>) -> Result<Arc<State>, Refused> {
    if let Some(state) = work.now() {
        return Ok(state);
    }
    let (number, view) = work.view();
    let revision = office.archive.state(&work.name, number)?.revision;
    publish_first(work, first_state(view, &revision, None));
    think(office, work);
    work.now().ok_or(Refused::NotFound)
}

fn first_state(view: View, revision: &Revision, before: Option<Arc<Before>>) -> State {
    let results = view.voltage_results().ok().flatten().map(Arc::new);
    let price = view.site().map(|site| {
        let bill = Bill::of(site);
        (bill.material(), bill.unpriced())
    });
    let (findings, not_judged) = found(&view);
    State {
        number: revision.number.0,
        note: revision.signed.note.clone(),
        standing: view.standing(),
        results,
        findings,
        not_judged,
        assessment: None,
        remedies: false,
        jobs: None,
        headroom: None,
        price,
        before,
        view,
    }
}

/// What was found so far, worst first.
fn found(view: &View) -> (Arc<Vec<Finding>>, Arc<Vec<NotJudged>>) {
    let mut findings = view.reading().to_vec();
    let mut not_judged = Vec::new();
    if let Some(report) = view.rules() {
        findings.extend(report.findings);
        not_judged = report.not_judged;
    }
    findings.sort_by(|a, b| (b.severity, a.code, &a.element).cmp(&(a.severity, b.code, &b.element)));
    (Arc::new(findings), Arc::new(not_judged))
}

fn publish_first(work: &Work, state: State) {
    work.news.send_replace(Some(Arc::new(state)));
}

/// Tells more of the newest state; nothing if a newer one has come.
fn tell(work: &Work, number: i64, change: impl FnOnce(&mut State)) {
    work.news.send_if_modified(|known| match known {
        Some(state) if state.number == number => {
            change(Arc::make_mut(state));
            true
        }
        _ => false,
    });
}

/// Works out the rest of the newest revision, stage by stage, off the threads that answer.
fn think(office: &Arc<Office>, work: &Arc<Work>) {
    let (permits, work) = (Arc::clone(&office.thinking), Arc::clone(work));
    let Some(state) = work.now() else { return };
    let Ok(handle) = tokio::runtime::Handle::try_current() else { return };
    handle.spawn(async move {
        let Ok(permit) = permits.acquire_owned().await else { return };
        // It waited; something newer may have come.
        if work.now().is_none_or(|now| now.number != state.number) {
            return;
        }
        let done = tokio::task::spawn_blocking(move || {
            let _permit = permit;
            // Given up: a newer revision has come, and tells for itself.
            let _: Result<(), GivenUp> = stages(&work, &state);
        });
        let _: Result<(), _> = done.await;
    });
}

fn stages(work: &Work, state: &State) -> Result<(), GivenUp> {
    let (view, number) = (&state.view, state.number);
    if view.site().is_none() {
        return Ok(());
    }
    let so_far = || {
        let (findings, not_judged) = found(view);
        let standing = view.standing();
        tell(work, number, |state| {
            state.findings = findings;
            state.not_judged = not_judged;
            state.standing = standing;
        });
    };
    view.short_circuit()?;
    so_far();
    view.signal()?;
    so_far();
    view.start_up()?;
    let assessment = view.assessment()?.cloned().map(Arc::new);
    if let Some(assessment) = &assessment {
        let all = whole(assessment);
        let not_judged = Arc::new(assessment.not_judged.clone());
        let standing = view.standing();
        let assessment = Arc::clone(assessment);
        tell(work, number, |state| {
            state.findings = Arc::new(all);
            state.not_judged = not_judged;
            state.standing = standing;
            state.assessment = Some(assessment);
        });
    }
    if let Some(mended) = view.remedies()? {
        let (all, mended) = (whole(mended), Arc::new(mended.clone()));
        let jobs = view.jobs()?.cloned().map(Arc::new);
        tell(work, number, |state| {
            state.findings = Arc::new(all);
            state.assessment = Some(mended);
            state.remedies = true;
            state.jobs = jobs;
        });
    }
    let headroom = view.headroom()?.map(|all| Arc::new(all.to_vec()));
    tell(work, number, |state| state.headroom = headroom);
    Ok(())
}

/// Findings of reading and of the rules, worst first.
fn whole(assessment: &Assessment) -> Vec<Finding> {
    let mut all: Vec<Finding> = assessment.read.iter().chain(&assessment.findings).cloned().collect();
    all.sort_by(|a, b| (b.severity, a.code, &a.element).cmp(&(a.severity, b.code, &b.element)));
    all
}
