//! What can be asked on the telephone before anybody takes a meter: whether another station works.
//!
//! Each of both answers is put through the same inference that will answer once it is given, so that what is printed is what that says. How
//! probable an answer is follows from the evidence of both: the probability of everything that is told then, over all causes. The question
//! is chosen by how much it is expected to narrow the places to look at (mutual information of place and answer; Lindley, Annals of Mathematical
//! Statistics 27, 1956, 986).

use crate::evidence::{Evidence, Symptom};
use crate::hypothesis::Hypothesis;
use crate::inference::Inference;
use crate::kind::SymptomKind;
use crate::located::{Located, Options};
use crate::model::Model;
use crate::place::{PlaceShare, places};
use crate::plant::Plant;
use crate::rates::Rates;
use latchline_site::model::{RunStart, RunStop, StationOwner};

/// Stations that are looked at, at most: each costs two inferences.
const MOST_ASKED_OF: usize = 6;
/// Causes that are ranked again for each of them.
const MOST_ASKED_AGAIN: usize = 160;
/// A question that narrows by less than this, in bits, or of which one answer is as good as certain, is not worth a call.
const LEAST_BITS: f64 = 0.3;
const MOSTLY_ONE: f64 = 0.97;

/// A question to somebody at another station.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Of which station: index into `Site::stations`.
    pub station: usize,
    /// Bits that the answer is expected to tell about the place to look at.
    pub bits: f64,
    /// It works, and it shows the same.
    pub answers: [Answer; 2],
}

/// An answer, and what it leaves.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// What is told of the station then.
    pub told: SymptomKind,
    /// How probable this answer is.
    pub probability: f64,
    /// Where to look then, the most probable place first; members are indices into the causes of that answer.
    pub places: Vec<PlaceShare>,
}

/// The question that narrows most; `None` where something was read, nothing bad is told of an indoor station, the list of devices was given, the
/// answer is sure enough, or no question helps.
pub fn question(
    plant: &Plant<'_>,
    evidence: &Evidence,
    rates: &Rates,
    options: &Options,
    located: &Located,
) -> Option<Question> {
    if located.is_sure || !evidence.measured.is_empty() || evidence.is_of_list() {
        return None;
    }
    let told =
        evidence.symptoms.iter().find(|one| one.kind.is_bad() && is_of_dwelling(plant, one.station))?;
    let kinds = [SymptomKind::Works, told.kind];
    let caller = Caller { plant, evidence, rates, design_fails: options.design_errors > 0, kinds };
    // What is improbable now seldom decides which question is best.
    let likely: Vec<Hypothesis> = located
        .ranking
        .causes
        .iter()
        .take(MOST_ASKED_AGAIN)
        .map(|cause| located.hypotheses[cause.hypothesis].clone())
        .collect();
    let before = open_bits(&located.places, located.ranking.none_of_these);
    let asked = stations(plant, evidence, told.station).into_iter();
    let asked = asked.filter_map(|station| caller.asked(station, &likely, before));
    let best = asked.max_by(|a, b| a.bits.total_cmp(&b.bits).then(b.station.cmp(&a.station)))?;
    // What is printed is what will be answered.
    caller.asked(best.station, &located.hypotheses, before).filter(|best| best.bits >= LEAST_BITS)
}

/// Who can be asked, and what is known so far.
struct Caller<'c, 'a> {
    plant: &'c Plant<'a>,
    evidence: &'c Evidence,
    rates: &'c Rates,
    design_fails: bool,
    kinds: [SymptomKind; 2],
}

impl Caller<'_, '_> {
    /// The question of a station over these causes; `None` where one answer is as good as certain.
    fn asked(&self, station: usize, hypotheses: &[Hypothesis], before: f64) -> Option<Question> {
        let ask = |kind: SymptomKind| {
            let mut evidence = self.evidence.clone();
            evidence.symptoms.push(Symptom { kind, station });
            let model = Model::of(self.plant, &evidence);
            Inference::new(&model, self.rates, &evidence, self.design_fails).rank(hypotheses)
        };
        let rankings = self.kinds.map(ask);
        let works = 1.0 / (1.0 + (rankings[1].log_evidence - rankings[0].log_evidence).exp());
        if works.max(1.0 - works) > MOSTLY_ONE {
            return None;
        }
        let answer = |place: usize, probability: f64| Answer {
            told: self.kinds[place],
            probability,
            places: places(self.plant, hypotheses, &rankings[place]),
        };
        let answers = [answer(0, works), answer(1, 1.0 - works)];
        let open = answers
            .iter()
            .zip(&rankings)
            .map(|(answer, ranking)| answer.probability * open_bits(&answer.places, ranking.none_of_these));
        let bits = before - open.sum::<f64>();
        Some(Question { station, bits, answers })
    }
}

/// What is not known about where to look, in bits.
fn open_bits(places: &[PlaceShare], none_of_these: f64) -> f64 {
    let shares = places.iter().map(|place| place.probability).chain([none_of_these]);
    shares.filter(|share| *share > 0.0).map(|share| -share * share.log2()).sum()
}

fn is_of_dwelling(plant: &Plant<'_>, station: usize) -> bool {
    matches!(plant.site.stations[station].owner, StationOwner::Dwelling { .. })
}

/// Stations that part what may be wrong: the next ones on the same run, one on another run of the same box, one behind another box.
fn stations(plant: &Plant<'_>, evidence: &Evidence, of: usize) -> Vec<usize> {
    let site = plant.site;
    let is_asked = |station: &usize| {
        is_of_dwelling(plant, *station)
            && plant.layout.station[*station].is_some()
            && !evidence.symptoms.iter().any(|symptom| symptom.station == *station)
    };
    let on = |run: usize| -> Vec<usize> {
        let stops = site.runs[run].sections.iter().filter_map(|section| match section.to {
            RunStop::Station(station) => Some(station),
            RunStop::BoxInput(_) | RunStop::BoxLink(_) => None,
        });
        stops.collect()
    };
    let Some(own) = (0..site.runs.len()).find(|run| on(*run).contains(&of)) else { return Vec::new() };
    let start = site.runs[own].from;
    let along = on(own);
    let here = along.iter().position(|station| *station == of).unwrap_or(0);
    let mut found: Vec<usize> = Vec::new();
    found.extend(along[..here].iter().rev().copied().find(|station| is_asked(station)));
    found.extend(along[here..].iter().copied().find(|station| is_asked(station)));
    let box_of = |start: RunStart| match start {
        RunStart::Port { box_index, .. } => Some(box_index),
        RunStart::Supply(_) | RunStart::Station(_) => None,
    };
    let others = || (0..site.runs.len()).filter(|run| *run != own);
    let first_of = |run: usize| on(run).into_iter().find(|station| is_asked(station));
    let beside = others().filter(|run| box_of(site.runs[*run].from) == box_of(start));
    found.extend(beside.filter_map(first_of).take(2));
    let beyond = others().filter(|run| box_of(site.runs[*run].from) != box_of(start));
    found.extend(beyond.filter_map(first_of).take(2));
    found.truncate(MOST_ASKED_OF);
    found
}
