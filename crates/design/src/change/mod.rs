//! An installed site changed as a newer survey asks, at least cost: what is installed stays where and what it
//! is.
//!
//! Differences are lengths that the survey gives otherwise, parts that it withdraws, and dwellings,
//! entrances and desks that the site does not have. Lengths are facts and cost nothing. For everything else there are
//! ways to do it (`ways`): a part in place of another; a dwelling looped into a run at any place, on a
//! free port, or on a further box at the end of a trunk. Complete changes are judged from the cheapest on by
//! resolving and assessing the changed text; one that fails is followed by the same with one mend
//! more: another cable, a larger supply, the last dwelling of a run moved to a free port. What is found is the
//! cheapest of those that were tried, which are counted; nothing is claimed beyond that.

mod installed;
mod lengths;
mod mends;
mod names;
mod replace;
mod ways;

use crate::instance::Instance;
use crate::item::Owner;
use crate::judge::Rejection;
use crate::money::{Amount, money};
use crate::obstacle::Obstacle;
use crate::parts::is_withdrawn;
use installed::Installed;
use latchline_assess::{Assessment, Memory, Verdict, assess_with};
use latchline_finding::{Both, Edit, FileId, Money, Sources};
use latchline_site::model::Site;
use latchline_site::{LoadedCatalogues, edit};
use latchline_survey::Survey;
use latchline_words::design::{ObstacleWords, StepWords, UnknownPart};
use std::cmp::Reverse;
use std::collections::BinaryHeap;
use ways::Way;

/// Changes that are judged at most.
const MOST_JUDGED: usize = 240;
/// Ways to hang one dwelling that are kept, the cheapest.
const MOST_WAYS: usize = 40;
/// Mends that a failing change is given at most.
const MOST_MENDS: usize = 3;

/// The installed site with its texts.
#[derive(Clone, Copy)]
pub struct From<'a> {
    /// All texts.
    pub sources: &'a Sources,
    /// The site file among them.
    pub site_file: FileId,
    /// The catalogues, read from them.
    pub catalogues: &'a LoadedCatalogues,
    /// The site as it resolves with them.
    pub site: &'a Site,
}

/// A change that passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Changed {
    /// The changed site file.
    pub text: String,
    /// The changed site.
    pub site: Site,
    /// Its assessment.
    pub assessment: Assessment,
    /// What changed, as edits with their reasons, in the order in which they apply.
    pub steps: Vec<Step>,
    /// Differences that are left as they are.
    pub left: Vec<Both>,
    /// Material and labour of the change.
    pub cost: Money,
    /// Changes that were judged.
    pub judged: usize,
}

/// One part of a change.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What and why, in words.
    pub words: Both,
    /// The change of the text.
    pub edit: Edit,
    /// Its cost.
    pub cost: Money,
}

/// What has to be decided.
#[derive(Debug, Clone, PartialEq)]
enum Task {
    /// A withdrawn part is to be replaced.
    Replace(String),
    /// An item of the instance is new.
    Hang(usize),
}

/// A change in the making.
#[derive(Clone)]
struct Draft {
    cost: Amount,
    installed: Installed,
    steps: Vec<Way>,
    /// Tasks that are done.
    done: usize,
    mends: usize,
    number: usize,
}

struct Queued(Draft);

impl Queued {
    fn rank(&self) -> Reverse<(Amount, usize, usize)> {
        // Of equal cost the simpler, then the earlier.
        Reverse((self.0.cost, self.0.steps.len(), self.0.number))
    }
}
impl PartialEq for Queued {
    fn eq(&self, other: &Self) -> bool {
        self.rank() == other.rank()
    }
}
impl Eq for Queued {}
impl PartialOrd for Queued {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Queued {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.rank().cmp(&other.rank())
    }
}

/// Finds the cheapest change of an installed site to what the survey says now.
///
/// # Errors
/// [`Obstacle`]: why no change can be made, or what every change that was tried breaks.
pub fn change(survey: &Survey, from: From<'_>) -> Result<Changed, Obstacle> {
    let catalogue = &from.site.catalogue;
    let name = &from.site.family.value;
    let Some(family) = catalogue.families.get(name) else {
        return Err(Obstacle::UnknownPart { part: UnknownPart::Family, name: name.clone() });
    };
    let survey = &names::as_installed(survey, from.site);
    let instance = Instance::new(survey, catalogue, family)?;
    let text = from.sources.file(from.site_file).text.to_string();
    // What a trial leaves as it is is worked out once.
    let memory = Memory::default();
    let before = assess_with(from.site, &memory);
    let mut installed = Installed::new(&instance, from.site);
    let lengths = lengths::corrections(&instance, &mut installed);
    let tasks = tasks(&instance, from.site);
    let left = left(&instance, from.site);
    let mut number = 0;
    let mut heap = BinaryHeap::new();
    heap.push(Queued(Draft { cost: 0, installed, steps: Vec::new(), done: 0, mends: 0, number }));
    let (mut judged, mut rejected) = (0, Vec::new());
    while let Some(Queued(draft)) = heap.pop() {
        let mut further: Vec<(Installed, Way, bool)> = Vec::new();
        if let Some(task) = tasks.get(draft.done) {
            let mut ways = match task {
                Task::Replace(part) => replace::replacements(&instance, &draft.installed, from.site, part)?,
                Task::Hang(item) => ways::hangings(&instance, &draft.installed, *item),
            };
            ways.sort_by_key(|(_, way)| way.cost);
            ways.truncate(MOST_WAYS);
            further.extend(ways.into_iter().map(|(installed, way)| (installed, way, true)));
        } else {
            if judged == MOST_JUDGED {
                break;
            }
            judged += 1;
            let all = || lengths.iter().chain(&draft.steps);
            match try_out(&instance, from, &text, all, &before, &memory) {
                Ok((Tried { text, site, assessment, edits, .. }, numbers)) => {
                    let made = all().zip(edits).map(|(way, edit)| Step {
                        words: way.words.clone(),
                        edit,
                        cost: money(way.cost),
                    });
                    let numbers = numbers.map(|edit| Step {
                        words: StepWords::NumbersStated.both(),
                        edit,
                        cost: Money::ZERO,
                    });
                    let steps = numbers.into_iter().chain(made).collect();
                    let cost = money(draft.cost);
                    return Ok(Changed { text, site, assessment, steps, left, cost, judged });
                }
                Err(rejection) => {
                    if draft.mends < MOST_MENDS {
                        let mends = mends::mends(&instance, &draft.installed, from.site, &rejection);
                        further.extend(mends.into_iter().map(|(installed, way)| (installed, way, false)));
                    }
                    rejected = rejection.told;
                }
            }
        }
        for (installed, way, is_task) in further {
            number += 1;
            let mut steps = draft.steps.clone();
            let cost = draft.cost + way.cost;
            steps.push(way);
            let (done, mends) =
                if is_task { (draft.done + 1, draft.mends) } else { (draft.done, draft.mends + 1) };
            heap.push(Queued(Draft { cost, installed, steps, done, mends, number }));
        }
    }
    if rejected.is_empty() {
        rejected = vec![ObstacleWords::NothingTakesIt.both()];
    }
    Err(Obstacle::Rejected { tried: judged, findings: rejected })
}

fn tasks(instance: &Instance<'_>, site: &Site) -> Vec<Task> {
    let mut tasks: Vec<Task> = Vec::new();
    for part in &instance.survey.settings.withdrawn {
        let name = &part.value;
        let used = site.stations.iter().any(|station| station.model.value == *name)
            || site.boxes.iter().any(|item| item.model.value == *name)
            || site.supplies.iter().any(|supply| supply.model.value == *name);
        if used {
            tasks.push(Task::Replace(name.clone()));
        }
    }
    let known = |name: &str| site.stations.iter().any(|station| station.id.as_str() == name);
    let new = instance.items.iter().enumerate().filter(|(_, item)| !known(&item.name));
    tasks.extend(new.map(|(index, _)| Task::Hang(index)));
    tasks
}

/// What the survey and the site have otherwise and a change does not touch.
fn left(instance: &Instance<'_>, site: &Site) -> Vec<Both> {
    let mut left = Vec::new();
    let surveyed = |name: &str| instance.items.iter().any(|item| item.name == name);
    let names = site
        .dwellings
        .iter()
        .map(|dwelling| &dwelling.id)
        .chain(site.entrances.iter().map(|entrance| &entrance.id))
        .chain(site.management.iter().map(|desk| &desk.id));
    for name in names.filter(|name| !surveyed(name.as_str())) {
        left.push(StepWords::NotInSurvey { item: name.as_str() }.both());
    }
    for item in &instance.items {
        let Some(dwelling) = site.dwellings.iter().find(|dwelling| dwelling.id.as_str() == item.name) else {
            continue;
        };
        if matches!(item.owner, Owner::Dwelling(_)) && dwelling.stations.len() != item.models.len() {
            let words = StepWords::OtherStations {
                item: &item.name,
                surveyed: item.models.len(),
                installed: dwelling.stations.len(),
            };
            left.push(words.both());
        }
    }
    let runs = site.runs.iter().filter(|run| is_withdrawn(instance.survey, &run.cable.value));
    for run in runs {
        let words = StepWords::WithdrawnCable { run: run.id.as_str(), cable: &run.cable.value };
        left.push(words.both());
    }
    left
}

/// A change that passes, but for a station whose address it changes.
struct Tried {
    text: String,
    site: Site,
    assessment: Assessment,
    edits: Vec<Edit>,
    renumbered: Option<usize>,
}

/// Applies a change to the text, resolves and assesses it. Where a new name takes a number that was left over for another dwelling, the numbers of
/// those that are installed are stated first, by the edit that is given back: what is set stays as it is set.
fn try_out<'w, W: Iterator<Item = &'w Way>>(
    instance: &Instance<'_>,
    from: From<'_>,
    text: &str,
    ways: impl Fn() -> W,
    before: &Assessment,
    memory: &Memory,
) -> Result<(Tried, Option<Edit>), Rejection> {
    let refused = |station: usize| {
        let station = from.site.stations[station].id.as_str();
        Rejection::told(ObstacleWords::AddressWouldChange { station }.both())
    };
    let tried = try_on(instance, from, text, ways(), before, memory)?;
    let Some(station) = tried.renumbered else { return Ok((tried, None)) };
    let mut numbers = Edit::default();
    for chosen in &before.addresses.chosen {
        let id = from.site.dwellings[chosen.dwelling].id.as_str();
        let set = Edit::set(&["dwellings", id, "number"], chosen.number.to_string());
        numbers.changes.extend(set.changes);
    }
    let Ok(stated) = edit::apply(text, &numbers) else { return Err(refused(station)) };
    let tried = try_on(instance, from, &stated, ways(), before, memory)?;
    match tried.renumbered {
        Some(station) => Err(refused(station)),
        None => Ok((tried, Some(numbers))),
    }
}

fn try_on<'w>(
    instance: &Instance<'_>,
    from: From<'_>,
    text: &str,
    ways: impl Iterator<Item = &'w Way>,
    before: &Assessment,
    memory: &Memory,
) -> Result<Tried, Rejection> {
    let mut changed = text.to_string();
    let mut edits = Vec::new();
    for way in ways {
        let edit = way.edit(&changed);
        changed = edit::apply(&changed, &edit).map_err(|error| {
            Rejection::told(ObstacleWords::NotApplicable { error: &error.to_string() }.both())
        })?;
        edits.push(edit);
    }
    let mut sources = from.sources.clone();
    let file = sources.add("site.toml", changed.as_str());
    let resolved = from.catalogues.resolve(&sources, file);
    let Some(site) = resolved.site else {
        return Err(Rejection::of_reading(&resolved.findings));
    };
    let assessment = assess_with(&site, memory);
    if assessment.verdict == Verdict::Fails {
        return Err(Rejection::of(instance, &site, &assessment.findings));
    }
    let renumbered = (0..from.site.stations.len()).find(|index| {
        let id = &from.site.stations[*index].id;
        let now = site.stations.iter().position(|other| other.id == *id);
        now.and_then(|now| assessment.addresses.numbers(now)) != before.addresses.numbers(*index)
    });
    Ok(Tried { text: changed, site, assessment, edits, renumbered })
}
