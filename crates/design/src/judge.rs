//! A plan judged as a whole: its site file resolved and assessed, as `check` does it.

use crate::emit::{old_cable_used, site_file};
use crate::instance::Instance;
use crate::item::Owner;
use crate::limits::least_margin_v;
use crate::money::{amount, money};
use crate::outcome::Texts;
use crate::parts::{damaged, is_damaged};
use crate::plan::Plan;
use latchline_assess::rules::codes;
use latchline_assess::{Assessing, Assessment, Effort, GivenUp, Memory, Wanted};
use latchline_finding::{Argument, Both, Code, ElementId, Figure, Finding, Language, Money, Severity};
use latchline_site::bill::Bill;
use latchline_site::model::{LockFeed, RunStop, Site};
use latchline_words::design::{FileComment, ObstacleWords, RemarkWords};
use latchline_words::figures;
use std::collections::{BTreeMap, BTreeSet};

/// What kind of change may help a plan that does not pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Help {
    /// Less on each supply and port.
    LessLoad,
    /// Less loss in cables: a supply is asked for a little more than it gives.
    LessLoss,
    /// Thicker conductors or shorter runs.
    Conductors,
    /// Further batteries.
    Batteries,
    /// Other runs in place of those that the findings name.
    OtherRuns,
    /// Nothing that a plan can change.
    Nothing,
}

/// Why a plan does not pass.
#[derive(Debug, Clone, PartialEq)]
pub struct Rejection {
    /// What may help.
    pub help: Help,
    /// By code, the worst finding with its figures, and how many more there are.
    pub told: Vec<Both>,
    /// The largest excess over a limit, as a share of the limit; 1 for a finding without figures. One more for each stage that
    /// was not reached.
    pub excess: f64,
    /// By finding: the items on the runs that it names, a caller's with its own.
    pub blamed: Vec<BTreeSet<usize>>,
    /// What no plan changes, in sentences: by code the first, and how many more there are.
    pub unmendable: Vec<Both>,
}

/// Errors that less load mends.
const LOAD: &[Code] = &[
    codes::BATTERY_HOURS_SHORT,
    codes::PORT_OVERLOADED,
    codes::RUN_TOO_LONG,
    codes::START_UP_FAILS,
    codes::START_UP_HICCUPS,
    codes::SUPPLY_COUNT_EXCEEDED,
    codes::SUPPLY_OVERLOADED,
    codes::SUPPLY_TOO_HOT,
    codes::TOTAL_LENGTH_EXCEEDED,
    codes::TRIP_BELOW_LEGITIMATE_CURRENT,
];
/// Warnings that less load mends, where none may be.
const LOAD_WARNINGS: &[Code] = &[codes::START_UP_DIP, codes::START_UP_DROPOUTS];
/// Those of them that thicker conductors may mend, where little is too much.
const OVERLOAD: &[Code] =
    &[codes::PORT_OVERLOADED, codes::SUPPLY_OVERLOADED, codes::TRIP_BELOW_LEGITIMATE_CURRENT];
/// Errors that thicker conductors mend.
const CONDUCTORS: &[Code] =
    &[codes::LOCK_VOLTAGE_TOO_LOW, codes::NO_OPERATING_POINT, codes::THIN_MARGIN, codes::VOLTAGE_TOO_LOW];
/// Errors of a run, or of a way from run to run.
const RUNS: &[Code] = &[
    codes::SHORT_CIRCUIT_NOT_CLEARED,
    codes::SHORT_CIRCUIT_NOT_DETECTED,
    codes::SIGNAL_NOTCH,
    codes::SIGNAL_RIPPLE,
    codes::SIGNAL_TOO_WEAK,
];

impl Rejection {
    /// Words alone: nothing that a plan can change.
    pub fn told(words: Both) -> Rejection {
        Rejection {
            help: Help::Nothing,
            told: vec![words.clone()],
            excess: 1.0,
            blamed: Vec::new(),
            unmendable: vec![words],
        }
    }

    /// Of the mistakes of a text that no site comes of.
    pub fn of_reading(findings: &[Finding]) -> Rejection {
        let mistakes: Vec<&Finding> =
            findings.iter().filter(|finding| finding.severity == Severity::Error).collect();
        Rejection {
            help: Help::Nothing,
            told: told(&mistakes),
            excess: 1.0,
            blamed: Vec::new(),
            unmendable: unmendable(&mistakes),
        }
    }

    /// Of the findings that count against a design.
    pub fn of(instance: &Instance<'_>, site: &Site, findings: &[Finding]) -> Rejection {
        let errors: Vec<&Finding> = findings.iter().filter(|finding| counts(instance, finding)).collect();
        let has = |codes: &[Code]| errors.iter().any(|finding| codes.contains(&finding.code));
        let known = |finding: &&Finding| {
            [LOAD, LOAD_WARNINGS, CONDUCTORS, RUNS].iter().any(|codes| codes.contains(&finding.code))
                && (finding.code != codes::LOCK_VOLTAGE_TOO_LOW || lock_is_on_bus(site, finding))
        };
        let unknown: Vec<&Finding> = errors.iter().copied().filter(|finding| !known(finding)).collect();
        let help = if !unknown.is_empty() {
            Help::Nothing
        } else if errors.iter().all(|finding| finding.code == codes::BATTERY_HOURS_SHORT) {
            Help::Batteries
        } else if has(OVERLOAD) && errors.iter().all(|finding| is_nearly_carried(finding)) {
            Help::LessLoss
        } else if has(LOAD) || has(LOAD_WARNINGS) {
            Help::LessLoad
        } else if has(CONDUCTORS) {
            Help::Conductors
        } else {
            Help::OtherRuns
        };
        let blamed = errors.iter().map(|finding| blamed(instance, site, finding)).collect();
        let excess = errors.iter().map(|finding| excess(finding)).fold(0.0, f64::max);
        Rejection { help, told: told(&errors), excess, blamed, unmendable: unmendable(&unknown) }
    }
}

/// Whether a supply or port is asked for so little too much that thicker cable may mend it, or less.
fn is_nearly_carried(finding: &Finding) -> bool {
    let mended = OVERLOAD.contains(&finding.code) && excess(finding) < NEARLY_CARRIED;
    mended || finding.code == codes::BATTERY_HOURS_SHORT || CONDUCTORS.contains(&finding.code)
}

/// Current above a limit, as a fraction, that thicker cable may save.
const NEARLY_CARRIED: f64 = 0.06;

/// Whether the lock of a finding is fed by the bus, so that a plan can change what it gets.
fn lock_is_on_bus(site: &Site, finding: &Finding) -> bool {
    let entrance = site.entrances.iter().find(|entrance| finding.element.as_ref() == Some(&entrance.id));
    entrance.is_some_and(|entrance| entrance.locks.iter().any(|lock| lock.feed.value == LockFeed::Bus))
}

/// How far a finding is beyond its limit, as a share of the limit; 1 without figures.
fn excess(finding: &Finding) -> f64 {
    match (&finding.value, &finding.limit) {
        (Some(value), Some(limit)) if limit.value != 0.0 => {
            ((value.value - limit.value) / limit.value).abs().min(1.0)
        }
        _ => 1.0,
    }
}

/// A figure against its limit.
fn against((value, limit): (Figure, Figure)) -> Both {
    let symbol = value.unit.symbol();
    let text = |number: f64| format!("{} {symbol}", (number * 100.0).round() / 100.0).trim_end().to_string();
    let say = |language| {
        let shown = |number| figures::decimals(text(number), language);
        ObstacleWords::Against { value: &shown(value.value), limit: &shown(limit.value) }.say(language)
    };
    Both::new(say(Language::English), say(Language::German))
}

fn by_code<'f>(errors: &[&'f Finding]) -> BTreeMap<Code, Vec<&'f Finding>> {
    let mut found: BTreeMap<Code, Vec<&Finding>> = BTreeMap::new();
    for finding in errors {
        found.entry(finding.code).or_default().push(finding);
    }
    found
}

/// By code, the worst finding with its figures, and how many more there are.
fn told(errors: &[&Finding]) -> Vec<Both> {
    let one = |(code, findings): (Code, Vec<&Finding>)| {
        let worst = findings.iter().max_by(|a, b| excess(a).total_cmp(&excess(b)));
        let element = worst.and_then(|worst| worst.element.as_ref()).map(|element| element.as_str());
        let figures = worst.and_then(|worst| worst.value.zip(worst.limit)).map(against);
        let more = Some(findings.len() - 1).filter(|more| *more > 0);
        let words = ObstacleWords::Finding { code: code.as_str(), element, figures: figures.as_ref(), more };
        words.both()
    };
    by_code(errors).into_iter().map(one).collect()
}

/// By code the first finding in a sentence with what to do, and how many more there are.
fn unmendable(errors: &[&Finding]) -> Vec<Both> {
    let one = |findings: &Vec<&Finding>| {
        let first = findings.first()?;
        let say = |language| {
            let wording = latchline_words::codes::wording(first, language);
            let (message, hint) = (&wording.message, wording.hint.as_deref());
            let more = Some(findings.len() - 1).filter(|more| *more > 0);
            ObstacleWords::Sentence { message, hint, more }.say(language)
        };
        Some(Both::new(say(Language::English), say(Language::German)))
    };
    by_code(errors).values().filter_map(one).collect()
}

/// One item on each run that a finding is about.
fn blamed(instance: &Instance<'_>, site: &Site, finding: &Finding) -> BTreeSet<usize> {
    let element = |argument: Option<&Argument>| match argument {
        Some(Argument::Element(element)) => Some(element.clone()),
        _ => None,
    };
    let named = [finding.element.clone(), element(finding.argument("caller"))];
    let item = |name: &ElementId| -> Option<usize> {
        let of_item = |name: &str| instance.items.iter().position(|item| item.name == name);
        let name = name.as_str();
        of_item(name).or_else(|| of_item(name.rsplit_once(':')?.0))
    };
    let of_run = |name: &ElementId| -> Option<usize> {
        let run = site.runs.iter().find(|run| run.id == *name || site.start_id(run.from) == *name)?;
        let stops = run.sections.iter().map(|section| section.to);
        let mut stations = stops.filter(|stop| matches!(stop, RunStop::Station(_)));
        item(site.stop_id(stations.next()?))
    };
    named.iter().flatten().filter_map(|name| item(name).or_else(|| of_run(name))).collect()
}

/// A plan whose site file passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// The plans, one for each bus.
    pub plans: Vec<Plan>,
    /// The site file.
    pub text: String,
    /// The site.
    pub site: Site,
    /// Its assessment.
    pub assessment: Assessment,
    /// What must be bought and pulled.
    pub bill: Bill,
    /// Material.
    pub material: Money,
    /// Labour in minutes.
    pub minutes: f64,
    /// Material and labour.
    pub cost: Money,
}

/// Resolves and assesses the plans of one or several buses together. Given up at the first stage that has errors: voltages and
/// short circuits, signals, power return.
///
/// # Errors
/// [`Rejection`] if they do not pass.
pub fn judge(
    instance: &Instance<'_>,
    texts: Texts<'_>,
    memory: &Memory,
    buses: &[&Plan],
) -> Result<Judged, Rejection> {
    let language = texts.language;
    let text = site_file(instance, buses, &notes(instance, buses, language), language);
    let mut sources = texts.sources.clone();
    let file = sources.add("site.toml", text.as_str());
    let resolved = texts.catalogues.resolve(&sources, file);
    let Some(site) = resolved.site else {
        return Err(Rejection::of_reading(&resolved.findings));
    };
    let assessing = Assessing::new(&site, Effort::Whole, &memory.wanted(Wanted::always()));
    let stages: [&dyn Fn() -> Result<(), GivenUp>; 4] = [
        &|| assessing.voltages().map(drop),
        &|| assessing.short_circuits().map(drop),
        &|| assessing.signal().map(drop),
        &|| assessing.start_up().map(drop),
    ];
    for (number, stage) in stages.iter().enumerate() {
        if stage().is_err() {
            break;
        }
        let findings = assessing.reports_so_far().findings;
        if findings.iter().any(|finding| counts(instance, finding)) {
            let later = (stages.len() - 1 - number) as f64;
            let rejection = Rejection::of(instance, &site, &findings);
            return Err(Rejection { excess: rejection.excess + later, ..rejection });
        }
    }
    let assessment =
        assessing.into_assessment().expect("work that is wanted whatever happens is not given up");
    let bill = Bill::of(&site);
    let (material, minutes) = (bill.material(), bill.minutes());
    let per_hour = instance.survey.settings.labour_per_hour;
    Ok(Judged {
        plans: buses.iter().map(|plan| (*plan).clone()).collect(),
        text,
        assessment,
        material,
        minutes,
        cost: money(amount(material, minutes, per_hour)),
        bill,
        site,
    })
}

/// Whether a finding keeps a design from counting: an error, a warning where none may be, or less margin than every station
/// must have.
fn counts(instance: &Instance<'_>, finding: &Finding) -> bool {
    let settings = &instance.survey.settings;
    let is_strict = settings.no_warnings.as_ref().is_some_and(|strict| strict.value);
    let least = match finding.severity {
        Severity::Error => true,
        Severity::Warning if is_strict => true,
        Severity::Warning if finding.code == codes::THIN_MARGIN => {
            finding.value.is_some_and(|margin| margin.value < least_margin_v(instance.survey))
        }
        _ => false,
    };
    least && finding.accepted.is_none()
}

/// What a person must know of a design that its price does not show.
pub fn remarks(instance: &Instance<'_>, buses: &[&Plan]) -> Vec<Both> {
    let mut remarks = instance.settled.clone();
    let further: u32 = buses.iter().flat_map(|plan| &plan.zones).map(|zone| zone.batteries - 1).sum();
    if further > 0 {
        remarks.push(RemarkWords::Batteries { further: further as usize }.both());
    }
    remarks.extend(left_unused(instance, buses));
    for known in damaged(instance.survey) {
        let insulation = figures::trimmed(known.insulation_mohm.unwrap_or(0.0), 3);
        let say = |language| {
            let insulation = &figures::decimals(insulation.clone(), language);
            RemarkWords::Damaged { from: &known.from.value, to: &known.to.value, insulation }.say(language)
        };
        remarks.push(Both::new(say(Language::English), say(Language::German)));
    }
    remarks
}

/// Cables in the walls that are sound and that no run uses.
fn left_unused(instance: &Instance<'_>, buses: &[&Plan]) -> Option<Both> {
    /// As many are named.
    const MOST_NAMED: usize = 6;
    if instance.survey.existing.is_empty() {
        return None;
    }
    let used = old_cable_used(instance, buses);
    let existing = instance.survey.existing.iter().enumerate();
    let unused: Vec<String> = existing
        .filter(|(index, known)| !used.contains(index) && !is_damaged(known))
        .map(|(_, known)| format!("{} – {}", known.from.value, known.to.value))
        .collect();
    let cables = &unused.iter().take(MOST_NAMED).cloned().collect::<Vec<_>>().join(", ");
    let more = unused.len().checked_sub(MOST_NAMED).filter(|more| *more > 0);
    (!unused.is_empty()).then(|| RemarkWords::LeftUnused { cables, more }.both())
}

/// What the head of the file says.
fn notes(instance: &Instance<'_>, buses: &[&Plan], language: Language) -> Vec<String> {
    let settings = &instance.survey.settings;
    let dwellings = instance.items.iter().filter(|item| matches!(item.owner, Owner::Dwelling(_))).count();
    let entrances = instance.items.iter().filter(|item| matches!(item.owner, Owner::Entrance(_))).count();
    let zones = || buses.iter().flat_map(|plan| &plan.zones);
    let supplies = zones().count();
    let trunks = buses.iter().flat_map(|plan| plan.trunks());
    let boxes: usize = trunks.map(|trunk| trunk.boxes.len()).sum();
    let contents = match boxes {
        0 => FileComment::ContentsOfSupplies { dwellings, entrances, supplies },
        _ => FileComment::Contents { dwellings, entrances, supplies, boxes },
    };
    let figure = |value: f64| figures::decimals(value.to_string(), language);
    let slack = &figure((settings.slack * 1000.0).round() / 10.0);
    let lengths = FileComment::Lengths { slack, end: &figure(settings.termination_m) };
    let mut notes = vec![contents.say(language), lengths.say(language)];
    if buses.len() > 1 {
        notes.push(FileComment::Buses { buses: buses.len() }.say(language));
    }
    notes.extend(remarks(instance, buses).into_iter().map(|remark| remark.of(language).to_string()));
    if let Some(group) = &settings.largest_group {
        notes.push(FileComment::Group { most: &group.value.to_string() }.say(language));
    }
    notes.push(FileComment::CheckIt.say(language));
    notes
}
