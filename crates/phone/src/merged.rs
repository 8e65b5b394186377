//! Several files of readings as one: by the names of their events, whatever the order and however often they came.

use crate::exported::{Event, ExportedFile, FORMAT, VERSION};
use crate::plan::WorkPlan;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// All events, each once.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Merged {
    /// By phone and its own sequence.
    pub events: Vec<Event>,
    /// Names under which two files say different things.
    pub clashes: Vec<Clash>,
}

/// One name, two contents: somebody changed a file, or a phone was copied.
#[derive(Debug, Clone, PartialEq)]
pub struct Clash {
    /// The first.
    pub kept: Event,
    /// The other.
    pub other: Event,
    /// Which file the other is in, from 0.
    pub file: usize,
}

impl Merged {
    /// Of these files, in their order.
    pub fn new(files: &[ExportedFile]) -> Merged {
        let mut by_id: BTreeMap<&str, &Event> = BTreeMap::new();
        let mut clashes = Vec::new();
        for (file, event) in
            files.iter().enumerate().flat_map(|(at, file)| file.events.iter().map(move |one| (at, one)))
        {
            match by_id.get(event.id.as_str()) {
                None => {
                    by_id.insert(&event.id, event);
                }
                Some(known) if known.raw == event.raw => {}
                Some(known) => {
                    clashes.push(Clash { kept: (*known).clone(), other: event.clone(), file });
                }
            }
        }
        let mut events: Vec<Event> = by_id.into_values().cloned().collect();
        events.sort_by(|a, b| (&a.device, a.sequence, &a.id).cmp(&(&b.device, b.sequence, &b.id)));
        Merged { events, clashes }
    }

    /// What is left once corrections and withdrawals are taken.
    pub fn standing(&self) -> Vec<&Event> {
        let gone: BTreeSet<&str> = self.events.iter().filter_map(|event| event.corrects.as_deref()).collect();
        let stands = |event: &&Event| event.kind != "withdrawn" && !gone.contains(event.id.as_str());
        self.events.iter().filter(stands).collect()
    }

    /// The file that phones take back: all events, as seen by the laptop.
    pub fn file(&self, plan: &WorkPlan) -> Value {
        let events: Vec<&Value> = self.events.iter().map(|event| &event.raw).collect();
        json!({
            "format": FORMAT,
            "version": VERSION,
            "latchline_version": env!("CARGO_PKG_VERSION"),
            "from": "laptop",
            "site": plan.site,
            "plan": plan.plan,
            "revision": plan.revision,
            "events": events,
        })
    }
}
