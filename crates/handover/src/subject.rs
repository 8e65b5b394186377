//! What a pack is made from, and everything that the tables share, worked out once.

use crate::language::Word;
use crate::locale::Locale;
use crate::options::Options;
use crate::stamp::Stamp;
use latchline_assess::{Assessment, DeviceResult, ReadingPlace, Readings};
use latchline_cutting::CableCuts;
use latchline_finding::{Finding, Severity};
use latchline_locate::FaultTable;
use latchline_site::cables::CableOwner;
use latchline_site::model::{LockFeed, Site};
use latchline_wiring::item::{item_place, walking_order};
use latchline_wiring::terminal::place_name;
use latchline_wiring::{Item, Place, TerminalSet, Wiring};
use std::collections::BTreeMap;

/// What a pack is made from.
#[derive(Clone, Copy)]
pub struct PackInput<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its assessment.
    pub assessment: &'a Assessment,
    /// What meters should read.
    pub readings: &'a Readings,
    /// The lengths to cut, drum by drum.
    pub cut_list: &'a [CableCuts],
    /// Findings met while reading the files.
    pub reading_findings: &'a [Finding],
    /// The faults of the site as a table; `None` where it was not worked out, which its sheet says.
    pub faults: Option<&'a FaultTable>,
}

/// Everything that tables are made from.
pub struct Subject<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its assessment.
    pub assessment: &'a Assessment,
    /// What meters should read.
    pub readings: &'a Readings,
    /// The lengths to cut, drum by drum.
    pub cut_list: &'a [CableCuts],
    /// The faults of the site as a table.
    pub faults: Option<&'a FaultTable>,
    /// Standing findings of reading the files and of the rules, worst first.
    pub findings: Vec<&'a Finding>,
    /// What the pack is made for.
    pub options: &'a Options,
    /// Where it is from.
    pub stamp: &'a Stamp,
    /// Words and units.
    pub locale: Locale,
    /// Cables and terminals.
    pub wiring: Wiring,
    /// Supplies, boxes and stations in walking order.
    pub order: Vec<Item>,
    results: BTreeMap<&'a str, &'a DeviceResult>,
}

impl<'a> Subject<'a> {
    /// Works out what the tables share.
    pub fn new(input: &PackInput<'a>, options: &'a Options, stamp: &'a Stamp) -> Subject<'a> {
        let PackInput { site, assessment, readings, cut_list, reading_findings, faults } = *input;
        let all = reading_findings.iter().chain(&assessment.findings);
        let mut findings: Vec<&Finding> = all.filter(|finding| finding.accepted.is_none()).collect();
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
        Subject {
            site,
            assessment,
            readings,
            cut_list,
            faults,
            findings,
            options,
            stamp,
            locale: Locale::of(options),
            wiring: Wiring::new(site, options.locale.language),
            order: walking_order(site),
            results: assessment.devices.iter().map(|device| (device.id.as_str(), device)).collect(),
        }
    }

    /// How many standing findings are errors.
    pub fn errors(&self) -> usize {
        self.findings.iter().filter(|finding| finding.severity == Severity::Error).count()
    }

    /// What the assessment says of a station or box.
    pub fn result(&self, id: &str) -> Option<&'a DeviceResult> {
        self.results.get(id).copied()
    }

    /// Where a device of the bus is read: a supply at its output, others at their input.
    pub fn reading_place(&self, item: Item) -> Option<ReadingPlace> {
        match item {
            Item::Supply(index) => Some(ReadingPlace::Supply(index)),
            Item::Box(index) => Some(ReadingPlace::BoxInput(index)),
            Item::Station(index) => Some(ReadingPlace::Station(index)),
            _ => None,
        }
    }

    /// An end of a cable: its terminals, or that it lies outside the plan.
    pub fn end_words(&self, place: Place) -> String {
        match place.1 {
            TerminalSet::Outside => self.locale.word(Word::OutsideEnd).to_string(),
            _ => self.place_name(place),
        }
    }

    /// The designation of an item, in the language of the pack.
    pub fn name(&self, item: Item) -> String {
        item.name(self.site, self.locale.language)
    }

    /// The designation of terminals that belong together, in the language of the pack.
    pub fn place_name(&self, place: Place) -> String {
        place_name(self.site, place, self.locale.language)
    }

    /// Drives with power of their own: gates and lifts of another trade.
    pub fn drives(&self) -> Vec<Item> {
        let entrances = self.site.entrances.iter().enumerate();
        let locks = entrances.flat_map(|(entrance, door)| {
            door.locks.iter().enumerate().map(move |(lock, used)| (entrance, lock, used))
        });
        locks
            .filter(|(_, _, used)| used.feed.value == LockFeed::DryContact)
            .map(|(entrance, lock, _)| Item::Lock { entrance, lock })
            .collect()
    }

    /// The runs whose last length ends at an item, and at which of its terminals.
    pub fn runs_into(&self, item: Item) -> Vec<(usize, String)> {
        let runs = self.site.runs.iter().enumerate();
        runs.filter_map(|(run, site_run)| {
            let section = site_run.sections.len().checked_sub(1)?;
            let owner = CableOwner::Section { run, section };
            let cable = self.wiring.cables.iter().find(|cable| cable.laid.owner == owner)?;
            (cable.to.0 == item).then(|| (run, cable.to.1.mark(self.locale.language)))
        })
        .collect()
    }

    /// Everything with mains of its own besides the supplies of the bus: supplies of locks and lights.
    pub fn further_mains(&self) -> Vec<Item> {
        let with_mains = self.wiring.terminals.keys().filter(|terminal| terminal.set == TerminalSet::Mains);
        let mut items: Vec<Item> = with_mains.map(|terminal| terminal.item).collect();
        items.retain(|item| !matches!(item, Item::Supply(_)));
        items.dedup();
        items
    }

    /// The place of a device in words.
    pub fn place_words(&self, item: Item) -> String {
        self.place_in_words(item_place(self.site, item))
    }

    /// A place in words.
    pub fn place_in_words(&self, place: &latchline_site::model::Place) -> String {
        self.site.place_words(place).of(self.locale.language).to_string()
    }
}
