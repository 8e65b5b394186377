//! What was read, held against the plan.

use crate::exported::Event;
use crate::merged::Merged;
use crate::plan::{PlanStep, WorkPlan};
use latchline_handover::commissioning::Taken;
use std::collections::{BTreeMap, BTreeSet};

/// How a reading stands to what is predicted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Within the range.
    In,
    /// Below it.
    Low,
    /// Above it.
    High,
    /// No range is predicted.
    Unknown,
}

/// One reading with its step.
#[derive(Debug, Clone, Copy)]
pub struct Judgement<'a> {
    /// The step.
    pub step: &'a PlanStep,
    /// The reading.
    pub event: &'a Event,
    /// What was read; `None` is open.
    pub value: Option<f64>,
    /// How it stands.
    pub side: Side,
    /// Which reading it is, if fault finding knows it.
    pub taken: Option<&'a Taken>,
}

/// What was read, held against the plan.
#[derive(Debug, Default)]
pub struct Comparison<'a> {
    /// Readings in working order; of steps with several, none is here.
    pub judged: Vec<Judgement<'a>>,
    /// Steps that ask for a reading and have none, in working order.
    pub missing: Vec<&'a PlanStep>,
    /// How many steps ask for a reading.
    pub asked: usize,
    /// How many other steps there are, and how many of them have an entry.
    pub others: (usize, usize),
    /// Steps with readings that differ.
    pub conflicts: Vec<(&'a PlanStep, Vec<&'a Event>)>,
    /// Snags that stand.
    pub snags: Vec<&'a Event>,
    /// Dwellings that were not entered.
    pub not_entered: Vec<&'a Event>,
    /// Units that were exchanged.
    pub exchanges: Vec<&'a Event>,
    /// Readings against another revision of the plan, or of a step that the plan does not have.
    pub not_of_this_plan: Vec<&'a Event>,
    /// The newest list of devices that the system found, as it was pasted.
    pub list: Option<&'a str>,
    /// Who holds the isolation; empty if it was given back.
    pub isolation: Option<&'a Event>,
    /// Names of who saw what of the handover.
    pub handover: Vec<&'a Event>,
}

impl PlanStep {
    /// How a value stands to what is predicted here.
    pub fn judge(&self, value: Option<f64>) -> Side {
        let read = value.unwrap_or(f64::INFINITY);
        match (self.lowest, self.highest) {
            (None, None) => Side::Unknown,
            (Some(lowest), _) if read < lowest => Side::Low,
            (_, Some(highest)) if read > highest => Side::High,
            _ => Side::In,
        }
    }
}

impl<'a> Comparison<'a> {
    /// Of what stands in these events.
    pub fn new(plan: &'a WorkPlan, merged: &'a Merged) -> Comparison<'a> {
        let standing = merged.standing();
        let known: BTreeMap<&str, &PlanStep> = plan.steps().map(|step| (step.key.as_str(), step)).collect();
        let mut found = Comparison::default();
        let mut entries: BTreeMap<&str, Vec<&Event>> = BTreeMap::new();
        let closed: BTreeSet<&str> = standing
            .iter()
            .filter(|event| event.kind == "closed")
            .filter_map(|event| event.of.as_deref())
            .collect();
        let is_open = |event: &Event| !closed.contains(event.id.as_str());
        for event in &standing {
            match event.kind.as_str() {
                "reading" | "tick" | "note" => {
                    let step = event.step.as_deref().and_then(|key| known.get(key));
                    match step.filter(|step| event.plan == plan.plan && fits(step, event)) {
                        Some(step) => entries.entry(step.key.as_str()).or_default().push(event),
                        None if event.kind == "reading" => found.not_of_this_plan.push(event),
                        None => {}
                    }
                }
                "snag" if is_open(event) => found.snags.push(event),
                "not-entered" if is_open(event) => found.not_entered.push(event),
                "exchange" => found.exchanges.push(event),
                "handover" => found.handover.push(event),
                _ => {}
            }
        }
        // Between phones only the clocks tell what came later; nothing else hangs on it.
        let newest = |kind: &str| {
            standing
                .iter()
                .filter(|event| event.kind == kind)
                .max_by_key(|event| (event.at_ms, &event.id))
                .copied()
        };
        found.list = newest("list").and_then(|event| event.text.as_deref());
        found.isolation = newest("isolation");
        for step in plan.steps().filter(|step| step.kind != "tell") {
            let here = entries.remove(step.key.as_str()).unwrap_or_default();
            if step.kind != "read" {
                found.others.0 += 1;
                found.others.1 += usize::from(!here.is_empty());
                continue;
            }
            found.asked += 1;
            let Some(first) = here.first() else {
                found.missing.push(step);
                continue;
            };
            if here.iter().any(|event| event.value != first.value) {
                found.conflicts.push((step, here));
                continue;
            }
            let value = first.value.flatten();
            let taken = plan.taken.get(&step.key);
            found.judged.push(Judgement { step, event: first, value, side: step.judge(value), taken });
        }
        found
    }

    /// Readings outside what is predicted.
    pub fn outside(&self) -> impl Iterator<Item = &Judgement<'a>> {
        self.judged.iter().filter(|one| matches!(one.side, Side::Low | Side::High))
    }

    /// Whether every reading is there and in its range, and nothing else stands.
    pub fn is_clean(&self) -> bool {
        self.outside().next().is_none()
            && self.missing.is_empty()
            && self.conflicts.is_empty()
            && self.snags.is_empty()
            && self.not_entered.is_empty()
            && self.not_of_this_plan.is_empty()
    }
}

/// Whether an entry is of the kind that the step asks for, in its unit.
fn fits(step: &PlanStep, event: &Event) -> bool {
    match step.kind {
        "read" => event.kind == "reading" && event.unit.as_deref() == Some(step.unit),
        "tick" => event.kind == "tick",
        _ => event.kind == "note",
    }
}
