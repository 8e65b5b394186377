//! What is to be done for a job, in a sentence: the change with what it costs, takes, clears and brings, or what can be done without one.

use crate::report::Report;
use crate::{figures, template, wording};
use latchline_assess::Assessment;
use latchline_assess::jobs::{Job, JobChange, Jobs};
use latchline_assess::rules::measured_loop_differs::is_far_off;
use latchline_finding::{Change, Code, Edit, EditStep, ElementId, Finding, Language, Money};
use latchline_words::codes;
use latchline_words::report::{JobWords, remedy_kind};

/// Names that one line lists.
pub(crate) const MOST_NAMES: usize = 8;

/// The change of a job with what it costs and clears, or what can be done without one.
pub fn what_to_do(assessment: &Assessment, jobs: &Jobs, job: &Job, language: Language) -> String {
    let worst = job.causes.first().and_then(|cause| jobs.causes[*cause].findings.first());
    let done_by: Vec<String> = job.done_by().iter().map(|index| number(*index, language)).collect();
    match &done_by[..] {
        [] => {}
        [job] => return JobWords::DoneByOne { job }.say(language),
        jobs => return JobWords::DoneBy { jobs: &jobs.join(", ") }.say(language),
    }
    if let Some(change) = job.told_change() {
        let change = change_words(assessment, change, language);
        let hint = worst.and_then(|index| look_first(&assessment.findings[*index], language));
        let slipped = || {
            let of_job = job.causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
            let all = of_job.chain(&job.told_change()?.clears).map(|index| &assessment.findings[*index]);
            let found = all.into_iter().find(|found| is_far_off(found))?;
            let (message, hint) = (codes::wording(found, language).message, look_first(found, language)?);
            Some(JobWords::ReadsFarOff { message: &message, hint: &hint }.say(language))
        };
        let hint = hint.or_else(slipped);
        return match hint {
            Some(hint) => JobWords::LookFirst { hint: &hint, change: &change }.say(language),
            None => change,
        };
    }
    let known = worst.map_or(&[][..], |index| &assessment.findings[*index].remedies);
    if let Some(measured) = known.iter().find(|remedy| remedy.measure.is_some()) {
        return wording::remedy(measured, None, language);
    }
    let hint = worst.and_then(|index| codes::wording(&assessment.findings[*index], language).hint);
    match job.change.is_some() {
        true => JobWords::NoChangeInOrder { hint: hint.as_deref() }.say(language),
        false => JobWords::NoChange { hint: hint.as_deref() }.say(language),
    }
}

/// What is to be looked for before anything is pulled, of a finding about a reading, which has a cause.
pub fn look_first(finding: &Finding, language: Language) -> Option<String> {
    codes::wording(finding, language).hint.filter(|_| is_reading(finding.code))
}

/// Whether a finding is about what a meter showed of a cable.
fn is_reading(code: Code) -> bool {
    use latchline_assess::rules::codes as rules;
    matches!(
        code,
        rules::MEASURED_LOOP_DIFFERS | rules::MEASURED_CAPACITANCE_DIFFERS | rules::INSULATION_TOO_LOW
    )
}

/// The dwellings that have to be entered, or that none has.
pub fn entered(dwellings: &[ElementId], language: Language) -> String {
    match dwellings {
        [] => JobWords::EntersNone.say(language),
        _ => {
            JobWords::Enters { dwellings: dwellings.len(), names: &named(dwellings, language) }.say(language)
        }
    }
}

fn change_words(assessment: &Assessment, change: &JobChange, language: Language) -> String {
    let remedy = &change.remedy;
    let cost = match remedy.cost.map(Money::rounded) {
        Some(Money::ZERO) if remedy.buys => JobWords::SamePrice.say(language),
        cost => parts_cost(cost, remedy.priced.map(Money::rounded), language),
    };
    let labour = wording::work(remedy, language);
    let is_unknown = remedy.minutes.is_none()
        && remedy.cost.is_none()
        && remedy.priced.is_none_or(|one| one.rounded() == Money::ZERO);
    let (cost, labour) = match is_unknown {
        true => (JobWords::NoPriceNoWork.say(language), None),
        false => (cost, labour),
    };
    let enters = change.enters.as_deref().filter(|dwellings| !dwellings.is_empty());
    let enters = enters.map(|dwellings| entered(dwellings, language));
    let value = remedy.value_after.map(|value| figures::rounded(value, language));
    let told = wording::then_told(remedy, language);
    let (kind, to) = match &remedy.parts[..] {
        [] => {
            let to =
                terminated(assessment, &remedy.edit, language).or_else(|| becomes(&remedy.edit, language));
            (remedy_kind(remedy.kind, language), to)
        }
        parts => (several(parts, language), None),
    };
    let words = JobWords::Change {
        kind: &kind,
        to: to.as_deref(),
        cost: &cost,
        labour: labour.as_deref(),
        enters: enters.as_deref(),
        clears: change.clears.len(),
        value: value.as_deref(),
        told: told.as_deref(),
    };
    words.say(language)
}

/// What parts cost more or less; of what has no price that, and what the rest costs.
fn parts_cost(cost: Option<Money>, priced: Option<Money>, language: Language) -> String {
    let amount = |cost: Money| figures::cost(cost, language);
    match cost {
        None => match priced.filter(|priced| *priced != Money::ZERO) {
            None => JobWords::NoPrice.say(language),
            Some(priced) => {
                let priced = &parts_cost(Some(priced), None, language);
                JobWords::SomeWithoutPrice { priced }.say(language)
            }
        },
        Some(Money::ZERO) => JobWords::NoParts.say(language),
        Some(cost) if cost < Money::ZERO => JobWords::PartsSaved { amount: &amount(cost) }.say(language),
        Some(cost) => JobWords::PartsCost { amount: &amount(cost) }.say(language),
    }
}

/// What all jobs take that have a change, one after the other; `None` where there are not several, or some were not tried in their order.
/// Sums of the figures as each job shows them.
pub(crate) fn all_together(jobs: &Jobs, language: Language) -> Option<String> {
    if jobs.jobs.iter().any(|job| job.in_order.is_none() && job.change.is_some()) {
        return None;
    }
    let changes: Vec<&JobChange> = jobs.jobs.iter().filter_map(Job::told_change).collect();
    if changes.len() < 2 {
        return None;
    }
    let known =
        changes.iter().map(|change| change.remedy.cost.or(change.remedy.priced).unwrap_or(Money::ZERO));
    let cost: Money = known.map(Money::rounded).sum();
    let unpriced = changes.iter().filter(|change| change.remedy.cost.is_none()).count();
    let minutes = changes.iter().filter_map(|change| change.remedy.minutes.filter(|one| one.is_finite()));
    let minutes: f64 = minutes.map(f64::ceil).sum();
    let mut dwellings: Vec<ElementId> = Vec::new();
    for dwelling in changes.iter().filter_map(|change| change.enters.as_ref()).flatten() {
        if !dwellings.contains(dwelling) {
            dwellings.push(dwelling.clone());
        }
    }
    dwellings.sort_by_cached_key(|dwelling| by_number(dwelling.as_str()));
    let labour = wording::minutes_of_work(minutes, language);
    let words = JobWords::AllJobs {
        cost: &parts_cost(Some(cost), None, language),
        unpriced: (unpriced > 0).then_some(unpriced),
        labour: labour.as_deref(),
        enters: &entered(&dwellings, language),
    };
    Some(words.say(language))
}

/// A name by which A-2 comes before A-10: what is no digit, and the number behind it, piece by piece.
fn by_number(name: &str) -> Vec<(String, u64)> {
    let mut pieces: Vec<(String, u64)> = Vec::new();
    let mut rest = name;
    while !rest.is_empty() {
        let words = rest.find(|sign: char| sign.is_ascii_digit()).unwrap_or(rest.len());
        let behind = &rest[words..];
        let digits = behind.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(behind.len());
        pieces.push((rest[..words].to_string(), behind[..digits].parse().unwrap_or(u64::MAX)));
        rest = &behind[digits..];
    }
    pieces
}

/// Several changes in one, each named with what it comes to and where it is made; where that is the same for all, it is said once.
pub(crate) fn several(parts: &[(&'static str, Edit)], language: Language) -> String {
    let places: Vec<Option<String>> = parts.iter().map(|(_, edit)| place(edit)).collect();
    let is_one_place = places.windows(2).all(|two| two[0] == two[1]);
    let mut said = parts.iter().zip(&places).enumerate().map(|(index, ((kind, edit), place))| {
        let kind = &remedy_kind(kind, language);
        let to = becomes(edit, language).map(|to| JobWords::PartTo { to: &to }.say(language));
        let at = place.as_deref().filter(|_| !is_one_place || index + 1 == parts.len());
        JobWords::PartOf { kind, to: to.as_deref(), at }.say(language)
    });
    let first = said.next().unwrap_or_default();
    said.fold(first, |first, second| JobWords::Both { first: &first, second: &second }.say(language))
}

/// The one thing of the site at which a change is made.
fn place(edit: &Edit) -> Option<String> {
    let name = |path: &[EditStep]| match path.get(1) {
        Some(EditStep::Key(name)) => Some(name.clone()),
        _ => None,
    };
    let mut names: Vec<Option<String>> = edit.changes.iter().map(|(path, _)| name(path)).collect();
    names.dedup();
    match names.as_slice() {
        [Some(name)] => Some(template::plain(name)),
        _ => None,
    }
}

/// The runs whose terminators a change sets, each with the device at its end, which is where somebody goes; `None` for any other change.
fn terminated(assessment: &Assessment, edit: &Edit, language: Language) -> Option<String> {
    let run = |path: &[EditStep]| match path {
        [EditStep::Key(table), EditStep::Key(run), EditStep::Key(key)]
            if table == "runs" && (key == "terminator" || key == "terminator_capacitor") =>
        {
            Some(run.clone())
        }
        _ => None,
    };
    let mut runs = edit.changes.iter().map(|(path, _)| run(path)).collect::<Option<Vec<String>>>()?;
    runs.dedup();
    let said = runs.iter().map(|run| {
        let on_it =
            assessment.devices.iter().filter(|one| one.run.as_ref().is_some_and(|of| of.as_str() == run));
        let last = on_it.max_by(|a, b| a.distance_m.total_cmp(&b.distance_m));
        let last = last.map(|device| template::plain(device.id.as_str()));
        JobWords::EndOfRun { run: &template::plain(run), device: last.as_deref() }.say(language)
    });
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| said.join(", "))
}

/// What a change comes to, if that is one value: the model, the cable or the port that is set.
fn becomes(edit: &Edit, language: Language) -> Option<String> {
    let set = |wanted: &str| {
        let value = edit.changes.iter().find_map(|(path, change)| match (path.last(), change) {
            (Some(EditStep::Key(key)), Change::Set(value)) if key == wanted => Some(value.as_str()),
            _ => None,
        });
        value.map(|value| template::plain(value.trim_matches('"')))
    };
    // Of a supply of a lock's own its voltage is what is bought, and how well it holds that.
    if let Some(voltage) = set("supply_voltage") {
        let tolerance = set("supply_tolerance");
        let words = JobWords::SupplyOfLock { voltage: &voltage, tolerance: tolerance.as_deref() };
        return Some(words.say(language));
    }
    if let (Some(batteries), 1) = (set("batteries"), edit.changes.len()) {
        return Some(JobWords::BatteriesInAll { batteries: &batteries }.say(language));
    }
    let mut values: Vec<&str> = Vec::new();
    for (_, change) in &edit.changes {
        match change {
            Change::Set(value) if !value.contains(['{', '[']) => values.push(value),
            Change::Remove | Change::Expect(_) => {}
            _ => return None,
        }
    }
    values.dedup();
    // A cable with so many of its pairs is named as runs are: "2 × outdoor-0.8".
    if let ([cable, pairs], true) = (&values[..], sets_cable_and_pairs(edit)) {
        return Some(format!("{pairs} × {}", template::plain(cable.trim_matches('"'))));
    }
    match values[..] {
        [value] => Some(template::plain(value.trim_matches('"'))),
        _ => None,
    }
}

/// Whether a change sets a cable, of a run or to a lock, then its pairs, and nothing else.
fn sets_cable_and_pairs(edit: &Edit) -> bool {
    let set = edit.changes.iter().filter(|(_, change)| matches!(change, Change::Set(_)));
    let keys = set.map(|(path, _)| match path.last() {
        Some(EditStep::Key(key)) => key.as_str(),
        _ => "",
    });
    keys.eq(["cable", "pairs"])
}

/// The command that does a job, also on the file with the jobs before it done; `None` where no change is known, or where the site came from
/// standard input.
pub(crate) fn command(
    report: &Report<'_>,
    assessment: &Assessment,
    jobs: &Jobs,
    job: &Job,
) -> Option<String> {
    report.command_of_job(&job_name(assessment, jobs, job)?)
}

/// The name of a job that stays when others are done, as it is written in a command; `None` where no change is known.
fn job_name(assessment: &Assessment, jobs: &Jobs, job: &Job) -> Option<String> {
    let change = job.told_change()?;
    // One that is left when the jobs before it are done; of the same at several places each.
    let mut own = job.causes.iter().flat_map(|cause| &jobs.causes[*cause].findings);
    let first = &assessment.findings[*own.find(|finding| change.clears.contains(finding))?];
    let heads = job.causes.iter().map(|cause| &assessment.findings[jobs.causes[*cause].findings[0]]);
    let alike =
        heads.filter(|one| job.is_of_several && one.code == first.code && one.element != first.element);
    let about: Vec<&ElementId> =
        std::iter::once(first).chain(alike).filter_map(|one| one.element.as_ref()).collect();
    Some(named_job(first.code, &about, change.remedy.kind))
}

/// The name of a job that stays when others are done: the code of what it mends, whom that is about and the kind of change, in
/// quotes where a shell wants them.
fn named_job(code: Code, about: &[&ElementId], kind: &str) -> String {
    let about: Vec<&str> = about.iter().map(|element| element.as_str()).collect();
    let about = if about.is_empty() { String::new() } else { format!(":{}", about.join(",")) };
    let name = format!("{code}{about}={kind}");
    let is_plain = name.chars().all(|sign| sign.is_alphanumeric() || "-_.:/=,".contains(sign));
    if is_plain { name } else { format!("\"{name}\"") }
}

/// The name by which a job is asked for: "J3", so that nobody takes it for a finding of `fix`.
pub(crate) fn number(index: usize, language: Language) -> String {
    JobWords::Number { job: index + 1 }.say(language)
}

/// Names in a row, the rest counted.
pub(crate) fn named(elements: &[ElementId], language: Language) -> String {
    first_named(elements, MOST_NAMES, language)
}

/// So many names in a row, the rest counted.
pub(crate) fn first_named(elements: &[ElementId], most: usize, language: Language) -> String {
    let shown = elements.iter().take(most).map(|element| template::plain(element.as_str()));
    let names = shown.collect::<Vec<_>>().join(", ");
    match elements.len().saturating_sub(most) {
        0 => names,
        more => JobWords::NamesAndMore { names: &names, more }.say(language),
    }
}
