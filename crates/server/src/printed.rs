//! A state as it stands on a page, in the reader's language, and what of it differs from what the page has.

use crate::files::Files;
use crate::pages::{changed, jobs};
use crate::work::State;
use latchline_assess::{Assessment, Stage, VoltageResults};
use latchline_drawing::elevation::{self, Printed, Step};
use latchline_finding::{Finding, Language, Locale, Money, Severity};
use latchline_session::Standing;
use latchline_site::model::USUAL_THIN_MARGIN_V;
use latchline_words::figures;
use latchline_words::office::{Label, Told};
use latchline_words::states;
use serde::Serialize;
use serde_json::{Value, json};

/// How the verdict looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Tone {
    Holds,
    Guesses,
    NotJudged,
    Pending,
    Fails,
}

impl Tone {
    /// Its class.
    pub fn word(self) -> &'static str {
        match self {
            Tone::Holds => "holds",
            Tone::Guesses => "guesses",
            Tone::NotJudged => "not-judged",
            Tone::Pending => "pending",
            Tone::Fails => "fails",
        }
    }
}

/// The verdict in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub(crate) struct VerdictLine {
    pub tone: Tone,
    pub text: String,
    pub detail: String,
    /// Step of the tightest device, for the bar.
    pub step: &'static str,
}

/// A state as it stands on a page.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PageState {
    pub number: i64,
    pub structure: u64,
    pub rows: Vec<Printed>,
    pub verdict: VerdictLine,
    pub note: String,
    pub price: String,
    pub price_change: String,
    pub pending: String,
    /// Whether the page can take something back, and make it again.
    pub turns: (bool, bool),
    pub jobs: String,
    pub changed: String,
    /// How the file of the site stands.
    pub files: String,
    /// Whether somebody has to do something about that.
    pub files_trouble: bool,
    /// How many figures differ from the revision before.
    pub differing: usize,
}

/// Prints a state.
pub(crate) fn print(state: &State, turns: (bool, bool), files: &Files, locale: Locale) -> PageState {
    let language = locale.language;
    let site = state.view.site();
    let (rows, structure) = match (site, &state.results) {
        (Some(site), Some(results)) => {
            (elevation::printed(site, results, &state.findings, locale), elevation::structure(site, locale))
        }
        _ => (Vec::new(), 0),
    };
    let (price, price_change) = prices(state, locale);
    let differing = changed::differing(state);
    PageState {
        number: state.number,
        structure,
        verdict: verdict(state, language),
        note: state.note.clone(),
        price,
        price_change,
        pending: pending(state, language),
        turns,
        files: files.say(language),
        files_trouble: files.is_trouble(),
        jobs: jobs::jobs(state, locale).into_string(),
        changed: changed::changed(state, &differing, locale).into_string(),
        differing: differing.len(),
        rows,
    }
}

fn prices(state: &State, locale: Locale) -> (String, String) {
    let Some((price, _)) = state.price else { return (String::new(), String::new()) };
    let language = locale.language;
    let before = state.before.as_ref().and_then(|before| before.price);
    let change = before.map_or(String::new(), |before| {
        let difference = price - before;
        match difference.rounded() {
            Money::ZERO => String::new(),
            rounded if rounded < Money::ZERO => format!("− {}", figures::cost(difference, language)),
            _ => format!("+ {}", figures::cost(difference, language)),
        }
    });
    (figures::money(price, language), change)
}

/// The word of a stage.
fn stage_word(stage: Stage, language: Language) -> &'static str {
    let label = match stage {
        Stage::Voltages => Label::Voltages,
        Stage::ShortCircuit => Label::ShortCircuit,
        Stage::Signal => Label::Signal,
        Stage::StartUp => Label::StartUp,
    };
    label.say(language)
}

/// "signal and start-up".
fn listed(words: &[&str], language: Language) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_string(),
        [most @ .., last] => Told::And { one: &most.join(", "), other: last }.say(language),
    }
}

/// What is still being worked out, the verdict's stages and what comes after.
fn pending(state: &State, language: Language) -> String {
    if state.results.is_none() {
        return String::new();
    }
    let mut words: Vec<&str> =
        state.standing.pending().iter().map(|stage| stage_word(*stage, language)).collect();
    if !state.remedies {
        words.push(Label::Remedies.say(language));
    }
    if state.headroom.is_none() {
        words.push(Label::Headroom.say(language));
    }
    if words.is_empty() {
        return String::new();
    }
    format!("{} {}", listed(&words, language), Label::Pending.say(language))
}

fn standing_errors(findings: &[Finding]) -> usize {
    findings
        .iter()
        .filter(|finding| finding.severity == Severity::Error && finding.accepted.is_none())
        .count()
}

/// The verdict of a state: what is pending, not judged or guessed never looks like what holds.
pub(crate) fn verdict(state: &State, language: Language) -> VerdictLine {
    let errors = standing_errors(&state.findings);
    let (tone, told) = match &state.standing {
        Standing::Unusable => (Tone::Fails, Told::Unusable { errors }.say(language)),
        Standing::FailsAlready(stages) => {
            let words: Vec<&str> = stages.iter().map(|stage| stage_word(*stage, language)).collect();
            (Tone::Fails, Told::FailsSoFar { errors, pending: &listed(&words, language) }.say(language))
        }
        Standing::Pending(stages) => {
            let words: Vec<&str> = stages.iter().map(|stage| stage_word(*stage, language)).collect();
            (Tone::Pending, Told::NotFinished { pending: &listed(&words, language) }.say(language))
        }
        Standing::Known(verdict) => known(*verdict, state, errors, language),
    };
    let (detail, step) = match &state.results {
        Some(results) => tightest(state, results, language),
        None => (String::new(), ""),
    };
    VerdictLine { tone, text: told, detail, step }
}

fn known(
    verdict: latchline_assess::Verdict,
    state: &State,
    errors: usize,
    language: Language,
) -> (Tone, String) {
    use latchline_assess::Verdict;
    let assumed = state
        .assessment
        .as_ref()
        .map_or(0, |assessment: &std::sync::Arc<Assessment>| assessment.assumed.len());
    if errors > 0 {
        return (Tone::Fails, Told::Fails { errors }.say(language));
    }
    match verdict {
        Verdict::Fails => (Tone::Fails, Told::Fails { errors }.say(language)),
        Verdict::FailsAsAccepted => {
            let accepted =
                state.findings.iter().filter(|finding| finding.severity == Severity::Error).count();
            (Tone::Fails, Told::FailsAsAccepted { errors: accepted }.say(language))
        }
        Verdict::NotJudged => {
            (Tone::NotJudged, Told::NotJudged { things: state.not_judged.len() }.say(language))
        }
        Verdict::HoldsOnAssumedData => {
            (Tone::Guesses, Told::HoldsOnGuesses { guesses: assumed }.say(language))
        }
        Verdict::Holds => (Tone::Holds, Told::Holds.say(language)),
    }
}

/// The tightest device in words, and its step.
fn tightest(state: &State, results: &VoltageResults, language: Language) -> (String, &'static str) {
    let Some(device) = results.tightest_device().map(|index| &results.devices[index]) else {
        return (String::new(), "");
    };
    let thin = state.view.site().map_or(USUAL_THIN_MARGIN_V, |site| site.policy.thin_margin.value.as_volts());
    let margin = device.worst.margin_v();
    let step = Step::of(margin, thin).word();
    let decimals = |text| figures::decimals(text, language);
    let when = states::in_words(&device.worst.state, language);
    let Some(voltage) = device.worst.adverse_v.filter(|voltage| voltage.is_finite()) else {
        return (format!("{}: {}, {when}", device.id, Label::NoVoltage.say(language)), step);
    };
    let voltage = figures::volts(voltage, language);
    let limit = decimals(figures::trimmed(device.worst.limit_v, 1));
    let told =
        Told::TightestIs { device: device.id.as_str(), voltage: &voltage, limit: &limit, state: &when };
    (told.say(language), step)
}

/// The class of a step.
pub(crate) fn step_word(step: Option<Step>) -> &'static str {
    step.map_or("", Step::word)
}

fn row(at: usize, row: &Printed) -> Value {
    let severity = row.severity.map_or("", |severity| severity.word());
    json!([
        at,
        row.element,
        row.figure,
        row.margin,
        step_word(row.step),
        row.run,
        severity,
        row.trouble,
        row.title
    ])
}

/// What a page that has `had` must change to have this; all of it for a page that has nothing.
pub(crate) fn difference(had: Option<&PageState>, now: &PageState) -> Value {
    let same_rows = had.is_some_and(|had| had.rows.len() == now.rows.len() && had.structure == now.structure);
    let rows: Vec<Value> = now
        .rows
        .iter()
        .enumerate()
        .filter(|(at, new)| !same_rows || had.is_none_or(|had| had.rows[*at] != **new))
        .map(|(at, new)| row(at, new))
        .collect();
    let mut message = json!({
        "revision": now.number,
        "structure": now.structure,
        "whole": !same_rows,
        "rows": rows,
        "verdict": now.verdict,
        "note": now.note,
        "price": now.price,
        "priceChange": now.price_change,
        "pending": now.pending,
        "undo": now.turns.0,
        "redo": now.turns.1,
        "differing": now.differing,
        "files": now.files,
        "filesTrouble": now.files_trouble,
    });
    if had.is_none_or(|had| had.jobs != now.jobs) {
        message["jobs"] = Value::from(now.jobs.as_str());
    }
    if had.is_none_or(|had| had.changed != now.changed) {
        message["changed"] = Value::from(now.changed.as_str());
    }
    message
}
