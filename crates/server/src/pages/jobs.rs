//! What is to be done: causes as jobs, worst first, each with its remedies as buttons.

use crate::work::State;
use latchline_finding::{Finding, Language, Locale, Money, Remedy, Severity};
use latchline_report::{job_change, jobs_text, wording};
use latchline_words::codes;
use latchline_words::key_names::assumed_values;
use latchline_words::office::{Label, Told};
use latchline_words::report::remedy_kind;
use latchline_words::template::names;
use maud::{Markup, html};

/// Jobs that are shown; the rest is counted.
const MOST_JOBS: usize = 60;
/// Elements of one job that are named.
const MOST_NAMED: usize = 4;

/// Findings of one kind with one remedy: one cause.
struct Job<'a> {
    first: &'a Finding,
    others: Vec<&'a Finding>,
    /// What is wrong and what to do about it, where that is known of the whole job.
    told: Option<(String, String)>,
    /// The change of the job.
    change: Option<Offer<'a>>,
}

/// A change that a button makes.
#[derive(Clone, Copy)]
struct Offer<'a> {
    /// The finding that carries it, else the first of the job.
    of: &'a Finding,
    /// Its number there; `None` where no finding carries it, such as two remedies made one.
    number: Option<usize>,
    remedy: &'a Remedy,
}

/// The jobs as every output has them, then what is no job: findings of reading, and advice.
fn listed(state: &State, language: Language) -> Vec<Job<'_>> {
    let (Some(jobs), Some(assessment)) = (&state.jobs, &state.assessment) else {
        return grouped(&state.findings);
    };
    let mut list: Vec<Job<'_>> = Vec::new();
    for job in &jobs.jobs {
        let findings = job.causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
        let mut findings = findings.map(|index| &assessment.findings[*index]);
        let Some(first) = findings.next() else { continue };
        let told = (
            jobs_text::title(assessment, jobs, job, language),
            job_change::what_to_do(assessment, jobs, job, language),
        );
        let change = job.change.as_ref().map(|one| {
            let of = one.carried_by.map_or(first, |(finding, _)| &assessment.findings[finding]);
            Offer { of, number: one.carried_by.map(|(_, number)| number), remedy: &one.remedy }
        });
        list.push(Job { first, others: findings.collect(), told: Some(told), change });
    }
    let is_job = |finding: &Finding| {
        let mut all = assessment.findings.iter();
        finding.severity > Severity::Advice
            && all.any(|one| (one.code, &one.element) == (finding.code, &finding.element))
    };
    list.extend(grouped(&state.findings).into_iter().filter(|job| !is_job(job.first)));
    list
}

/// Findings that the same remedy mends, or that are the same but for the element, are one job.
fn grouped(findings: &[Finding]) -> Vec<Job<'_>> {
    let mut jobs: Vec<Job<'_>> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.accepted.is_none()) {
        let same = |job: &&mut Job<'_>| {
            let remedy = |one: &Finding| one.remedies.first().map(|remedy| remedy.edit.clone());
            job.first.code == finding.code
                && job.first.severity == finding.severity
                && match (remedy(job.first), remedy(finding)) {
                    (Some(a), Some(b)) => a == b,
                    (None, None) => job.first.severity != Severity::Error,
                    _ => false,
                }
        };
        match jobs.iter_mut().find(same) {
            Some(job) => job.others.push(finding),
            None => jobs.push(Job { first: finding, others: Vec::new(), told: None, change: None }),
        }
    }
    jobs
}

/// The list.
pub(crate) fn jobs(state: &State, locale: Locale) -> Markup {
    let language = locale.language;
    let jobs = listed(state, language);
    let more = jobs.len().saturating_sub(MOST_JOBS);
    let complete = state.standing.pending().is_empty();
    // How many of each severity, and those of them that are shown.
    let mut groups: Vec<(Severity, usize, Vec<&Job<'_>>)> = Vec::new();
    for severity in [Severity::Error, Severity::Warning, Severity::Advice] {
        let all = jobs.iter().filter(|job| job.first.severity == severity).count();
        let shown = jobs.iter().take(MOST_JOBS).filter(|job| job.first.severity == severity).collect();
        if all > 0 {
            groups.push((severity, all, shown));
        }
    }
    html! {
        @if jobs.is_empty() {
            p.quiet { (if complete { Label::NoJobs } else { Label::NoJobsYet }.say(language)) }
        }
        @for (severity, all, shown) in &groups {
            h3 class={ "severity-head is-" (severity.word()) } { (severity_label(*severity).say(language)) " (" (all) ")" }
            ol.jobs { @for job in shown { (one(job, state, language)) } }
        }
        @if more > 0 { p.quiet { (Told::AndMore { elements: more }.say(language)) } }
        @if let Some(assessment) = &state.assessment && state.remedies && assessment.remedies_not_sought > 0 {
            p.quiet { (Told::RemediesLeft { findings: assessment.remedies_not_sought }.say(language)) }
        }
        (left_to_settle(state, language))
    }
}

fn severity_label(severity: Severity) -> Label {
    match severity {
        Severity::Error => Label::Fails,
        Severity::Warning => Label::Warning,
        Severity::Advice => Label::Advice,
    }
}

fn one(job: &Job<'_>, state: &State, language: Language) -> Markup {
    let finding = job.first;
    let mut words = codes::wording(finding, language);
    if let Some((title, what_to_do)) = &job.told {
        words.message.clone_from(title);
        words.hint = Some(what_to_do.clone());
    }
    // The change of the job first, then the other remedies of its worst finding.
    let others = finding.remedies.iter().enumerate();
    let others = others.map(|(number, remedy)| Offer { of: finding, number: Some(number), remedy });
    let is_other = |one: &Offer<'_>| job.change.is_none_or(|change| change.remedy.edit != one.remedy.edit);
    let offers = job.change.into_iter().chain(others.filter(is_other));
    let offers: Vec<Offer<'_>> = offers.filter(|one| one.remedy.changes_the_file()).collect();
    let code = finding.code.as_str();
    let element = finding.element.as_ref().map(|element| element.as_str()).unwrap_or_default();
    let names: Vec<&str> = job
        .others
        .iter()
        .filter_map(|other| other.element.as_ref())
        .map(|element| element.as_str())
        .collect();
    html! {
        li class={ "job is-" (finding.severity.word()) } {
            p {
                @if element.is_empty() { (codes::sentence(finding, language)) "." }
                @else {
                    button.link type="button" data-pick=(element) { (codes::sentence(finding, language)) "." }
                }
                @if !names.is_empty() {
                    " "
                    span.quiet {
                        "+ "
                        @for (at, name) in names.iter().take(MOST_NAMED).enumerate() {
                            @if at > 0 { ", " }
                            button.link type="button" data-pick=(name) { (name) }
                        }
                        @if names.len() > MOST_NAMED { " " (Told::AndMore { elements: names.len() - MOST_NAMED }.say(language)) }
                    }
                }
            }
            @if let Some(hint) = &words.hint { p.hint { (wording::capital(hint)) "." } }
            div.buttons {
                @for Offer { of, number, remedy } in &offers {
                    @let of_element = of.element.as_ref().map(|element| element.as_str()).unwrap_or_default();
                    @let id = number.map_or(String::from("job"), |number| number.to_string());
                    button type="button" id={ "r-" (of.code) "-" (of_element) "-" (id) } data-remedy=(id)
                        data-code=(of.code) data-element=(of_element) { (remedy_words(remedy, state.currency(), language)) }
                }
                @if offers.is_empty() && finding.severity > Severity::Advice {
                    @if state.remedies { span.quiet { (Label::NoRemedy.say(language)) } }
                    @else { span.pending { (Label::LookingForRemedies.say(language)) } }
                }
                button type="button" id={ "a-" (code) "-" (element) } data-accept=(code) data-element=(element) {
                    (Label::Accept.say(language))
                }
            }
        }
    }
}

/// A remedy on a button: what kind, and what it costs.
fn remedy_words(remedy: &Remedy, currency: &str, language: Language) -> String {
    let kind = wording::capital(&remedy_kind(remedy.kind, language));
    let number = |cost: Money| {
        format!("{} {currency}", latchline_words::figures::cost(cost, language)).trim_end().to_string()
    };
    match remedy.cost.map(Money::rounded) {
        Some(cost) if cost < Money::ZERO => format!("{kind}, − {}", number(cost)),
        Some(cost) if cost > Money::ZERO => format!("{kind}, + {}", number(cost)),
        Some(_) | None => kind,
    }
}

/// What the verdict rests on, and what it does not say.
fn left_to_settle(state: &State, language: Language) -> Markup {
    let assumed =
        state.assessment.as_ref().map(|assessment| assessment.assumed.as_slice()).unwrap_or_default();
    let unpriced = state.price.map_or(0, |(_, unpriced)| unpriced);
    let accepted: Vec<&Finding> =
        state.findings.iter().filter(|finding| finding.accepted.is_some()).collect();
    html! {
        @if !assumed.is_empty() || !state.not_judged.is_empty() || unpriced > 0 || !accepted.is_empty() {
            h2 { (Label::LeftToSettle.say(language)) }
            @if !state.not_judged.is_empty() {
                details open {
                    summary { (Told::MissingCount { things: state.not_judged.len() }.say(language)) }
                    ul { @for missing in state.not_judged.iter().take(MOST_JOBS) { li { (wording::not_judged(missing, language)) } } }
                }
            }
            @if !assumed.is_empty() {
                details {
                    summary { (Told::AssumedCount { values: assumed.len() }.say(language)) }
                    ul { @for (what, parts) in assumed_values(assumed, language) { li { (Told::AssumedOf { what: &what, parts: &names(&parts, language) }.say(language)) } } }
                }
            }
            @if !accepted.is_empty() {
                details {
                    summary { (Label::Accepted.say(language)) " (" (accepted.len()) ")" }
                    ul {
                        @for finding in accepted {
                            li {
                                (codes::wording(finding, language).message)
                                @if let Some(accepted) = &finding.accepted { ": " (accepted.reason) ", " (accepted.date) }
                            }
                        }
                    }
                }
            }
            @if unpriced > 0 { p.quiet { (Told::PartsWithoutPrice { parts: unpriced }.say(language)) } }
        }
        (headroom(state, language))
    }
}

/// How much more each run carries, by the whole check.
fn headroom(state: &State, language: Language) -> Markup {
    // None are there while the site fails: nothing can be added before.
    let Some(all) = state.headroom.as_ref().filter(|all| !all.is_empty()) else { return html! {} };
    html! {
        details {
            summary { (Label::HeadroomTitle.say(language)) }
            table.figures {
                tbody {
                    @for one in all.iter() {
                        tr {
                            th scope="row" { button.link type="button" data-pick=(one.id) { (one.id) } }
                            td {
                                @for (at, more) in one.stations.iter().enumerate() {
                                    @if at > 0 { br; }
                                    "+ " (more.stations) " × " (more.model)
                                }
                            }
                            td.number { @if let Some(metres) = &one.metres { "+ " (metres.metres) " m" } }
                        }
                    }
                }
            }
        }
    }
}
