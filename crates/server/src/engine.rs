//! The engine's work for the pages, off the threads that answer: a site is opened, goes to its newest revision, and is worked out
//! stage by stage.

use crate::office::Office;
use crate::refused::Refused;
use crate::work::{Before, State, Work};
use latchline_assess::{Assessment, GivenUp, NotJudged};
use latchline_finding::Finding;
use latchline_session::View;
use latchline_site::bill::Bill;
use latchline_store::Revision;
use latchline_words::office::OfficeRefusal;
use std::sync::Arc;

/// An open site with what is known of it: voltages at least, where its text can be used.
pub(crate) async fn opened(office: &Arc<Office>, name: &str) -> Result<(Arc<Work>, Arc<State>), Refused> {
    let (office, name) = (Arc::clone(office), name.to_string());
    blocking(move || {
        let work = office.work(&name)?;
        let state = begin(&office, &work)?;
        Ok((work, state))
    })
    .await
}

/// Work of the engine, off the threads that answer.
pub(crate) async fn blocking<T: Send + 'static>(
    task: impl FnOnce() -> Result<T, Refused> + Send + 'static,
) -> Result<T, Refused> {
    tokio::task::spawn_blocking(task).await.unwrap_or(Err(Refused::Broken(OfficeRefusal::EngineStopped)))
}

/// Looks at the files of every open site; what another program changed is shown.
pub(crate) fn look_at_files(office: &Arc<Office>) {
    for work in office.all_open() {
        if let Ok(true) = office.archive.settle(&work.name, (office.options.clock)())
            && arrive(office, &work).is_ok()
        {
            work.nudge();
        }
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
        work.publish(first_state(view, &head.revision, before));
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
    work.publish(first_state(view, &revision, None));
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

/// Works out the rest of the newest revision, stage by stage, off the threads that answer; an office that is stopping begins nothing.
fn think(office: &Arc<Office>, work: &Arc<Work>) {
    if *office.stopping.borrow() {
        return;
    }
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
        work.tell(number, |state| {
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
        work.tell(number, |state| {
            state.findings = Arc::new(all);
            state.not_judged = not_judged;
            state.standing = standing;
            state.assessment = Some(assessment);
        });
    }
    if let Some(mended) = view.remedies()? {
        let (all, mended) = (whole(mended), Arc::new(mended.clone()));
        let jobs = view.jobs()?.cloned().map(Arc::new);
        work.tell(number, |state| {
            state.findings = Arc::new(all);
            state.assessment = Some(mended);
            state.remedies = true;
            state.jobs = jobs;
        });
    }
    let headroom = view.headroom()?.map(|all| Arc::new(all.to_vec()));
    work.tell(number, |state| state.headroom = headroom);
    Ok(())
}

/// Findings of reading and of the rules, worst first.
fn whole(assessment: &Assessment) -> Vec<Finding> {
    let mut all: Vec<Finding> = assessment.read.iter().chain(&assessment.findings).cloned().collect();
    all.sort_by(|a, b| (b.severity, a.code, &a.element).cmp(&(a.severity, b.code, &b.element)));
    all
}
