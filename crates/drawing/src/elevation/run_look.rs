//! How runs are drawn and lettered.

use super::card::Trouble;
use super::card_picture;
use crate::language::{Lettering, Phrase};
use latchline_finding::Severity;
use latchline_scene::palette::Ink;
use latchline_scene::{Dash, Pen, Stroke};
use latchline_site::catalogue::Environment;
use latchline_site::model::{Run, RunStop, Site};
use std::collections::BTreeMap;

/// How the line of a run is drawn: what is new heavier than what is there already, what leads to a box heavier than what leads to
/// stations, and the kind of its way by the type of line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct RunLine {
    pub(super) environment: Environment,
    pub(super) is_existing: bool,
    pub(super) is_feeder: bool,
}

impl RunLine {
    pub(super) fn pen(self) -> Pen {
        match (self.is_existing, self.is_feeder) {
            (true, false) => Pen::Thin,
            (true, true) => Pen::Middle,
            (false, false) => Pen::Thick,
            (false, true) => Pen::Heavy,
        }
    }

    pub(super) fn dash(self) -> Dash {
        match self.environment {
            Environment::Indoors => Dash::Solid,
            Environment::Outdoors => Dash::Dashed,
            Environment::Buried => Dash::DashDot,
        }
    }
}

/// The conductor of most runs, if it is worth leaving out of their labels.
pub(super) fn usual_conductor(site: &Site, lettering: Lettering) -> Option<String> {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for run in &site.runs {
        *counts.entry(lettering.conductor(site, run)).or_default() += 1;
    }
    let (most, count) = counts.into_iter().max_by_key(|(_, count)| *count)?;
    (site.runs.len() > 3 && 2 * count >= site.runs.len()).then_some(most)
}

/// How a run is drawn and lettered.
#[derive(Debug, Clone)]
pub(super) struct RunLook {
    pub(super) label: String,
    /// What is left of it where there is less room.
    pub(super) medium: String,
    pub(super) short: String,
    pub(super) line: RunLine,
    pub(super) ink: Ink,
    pub(super) mark: Option<Severity>,
    pub(super) title: String,
}

impl RunLook {
    /// `usual` is the conductor that is not named on the drawing, if there is one.
    pub(super) fn new(
        site: &Site,
        run: &Run,
        troubles: &BTreeMap<String, Trouble>,
        usual: Option<&str>,
        lettering: Lettering,
    ) -> Self {
        let length = lettering.length(run.length().as_metres());
        let conductor = lettering.conductor(site, run);
        let full = format!("{} · {length} · {conductor}", run.id);
        let mut label =
            if usual == Some(conductor.as_str()) { format!("{} · {length}", run.id) } else { full.clone() };
        let mut title = full;
        let trouble = troubles.get(run.id.as_str());
        let marked = trouble.filter(|trouble| trouble.severity > Severity::Advice);
        if let Some(trouble) = trouble {
            let severity = lettering.word(crate::language::severity_word(trouble.severity));
            title = format!("{title}; {severity}: {}", trouble.words);
        }
        if let Some(trouble) = marked {
            label = format!("{label} · {}", trouble.words);
        }
        let stops: Vec<&str> = run.sections.iter().map(|section| site.stop_id(section.to).as_str()).collect();
        Self {
            short: run.id.to_string(),
            medium: format!("{} · {length}", run.id),
            line: RunLine {
                environment: run.environment.value,
                is_existing: run.existing.value,
                is_feeder: run.sections.iter().any(|section| !matches!(section.to, RunStop::Station(_))),
            },
            ink: marked.map_or(Ink::Text, |trouble| card_picture::ink_of(trouble.severity)),
            mark: marked.map(|trouble| trouble.severity),
            title: lettering.say(&Phrase::RunFromTo {
                run: &title,
                from: &site.start_id(run.from).to_string(),
                to: &stops.join(", "),
            }),
            label,
        }
    }

    pub(super) fn stroke(&self) -> Stroke {
        let ink = match self.mark {
            Some(Severity::Error) => Ink::Trouble,
            Some(Severity::Warning) => Ink::Doubt,
            _ => Ink::Wire,
        };
        Stroke::solid(ink, self.line.pen()).dashed(self.line.dash())
    }
}
