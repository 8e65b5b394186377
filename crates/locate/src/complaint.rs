//! Of whom is told, and who else would notice.
//!
//! A fault that many stations would notice is seldom told of one of them. How much is told differs from case to case: one caller knows
//! of the own flat, another has asked round. Each station that would notice is taken to be told of with the same probability `q`, and `q` has a
//! beta distribution of mean `m` and strength `s`: of `n` stations that would notice, just these `k` are told of with probability
//! `B(a + k, b + n - k) / B(a, b)`, `a = s m`, `b = s (1 - m)` (the beta-binomial distribution without its number of combinations), given that
//! any is. Who would notice is known roughly: who is off in standby, or whose voltage falls at least half as far as that of those who are told of.

use crate::evidence::{Evidence, Measured, Symptom};
use crate::kind::SymptomKind;
use crate::predict::Faulted;
use crate::quantity::Quantity;
use latchline_network::readings::ReadingPlace;
use latchline_network::{Layout, NodeRef};

/// A voltage lower by this share of the source's is taken to be the reason why somebody measured just there (assumed).
const NOTICED: f64 = 0.05;
/// Who else would notice: whose voltage falls by at least this share of the fall of those who are told of (assumed).
const AS_MUCH: f64 = 0.5;
/// How alike cases are in how much is told, in stations that somebody has asked (assumed).
const STRENGTH: f64 = 3.0;
/// A fall of fewer volts is noticed by nobody.
const LEAST_FALL_V: f64 = 0.01;

/// The stations that are told of, before a fault is put in.
pub(crate) struct Complaint {
    /// Those that are told of.
    pub told: Vec<NodeRef>,
    /// Index of standby among the states of the model.
    pub standby: usize,
}

/// How many would notice a fault by their voltage, and of how many of these is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Noticing {
    pub stations: usize,
    pub told: usize,
}

impl Noticing {
    /// Logarithm of the probability that of those who would notice just these are told of, where one is told of with this probability on
    /// the average.
    pub fn log(self, each: f64) -> f64 {
        let (told, silent) = (STRENGTH * each, STRENGTH * (1.0 - each));
        let rising = |from: f64, count: usize| (0..count).map(|step| (from + step as f64).ln()).sum::<f64>();
        let all = rising(STRENGTH, self.stations);
        let these = rising(told, self.told) + rising(silent, self.stations.saturating_sub(self.told)) - all;
        let none = rising(silent, self.stations) - all;
        these - (-none.exp_m1()).ln()
    }
}

/// The stations of which something bad is told; if nothing is told and the first reading was taken at a station and `is_low`, this one: it is where
/// somebody went to look, whatever is read after it.
pub(crate) fn told_of(evidence: &Evidence, is_low: impl Fn(&Measured, f64) -> bool) -> Vec<usize> {
    // A list of devices names all: that one is missing was not told by somebody who noticed.
    let is_list = evidence.is_of_list();
    let is_told =
        |symptom: &&Symptom| symptom.kind.is_bad() && !(is_list && symptom.kind == SymptomKind::NotFound);
    let mut told: Vec<usize> =
        evidence.symptoms.iter().filter(is_told).map(|symptom| symptom.station).collect();
    if evidence.symptoms.is_empty()
        && let Some(first) = evidence.measured.first()
        && let Quantity::Voltage { at: ReadingPlace::Station(station), .. } = first.quantity
        && is_low(first, NOTICED)
    {
        told.push(station);
    }
    told.sort_unstable();
    told.dedup();
    told
}

impl Complaint {
    /// Who would notice a fault: who is off, or whose voltage falls as far; `None` if none of those who are told of.
    pub fn noticing(
        &self,
        layout: &Layout,
        sound: &Faulted<'_, '_, '_>,
        faulted: &Faulted<'_, '_, '_>,
    ) -> Option<Noticing> {
        let fall = |at: NodeRef| sound.voltage(at).abs() - faulted.voltage(at).abs();
        let farthest = self.told.iter().map(|at| fall(*at)).fold(0.0, f64::max);
        let far_v = if farthest < LEAST_FALL_V { f64::INFINITY } else { AS_MUCH * farthest };
        let notices = |at: &&NodeRef| fall(**at) >= far_v || faulted.is_off(**at);
        let told = self.told.iter().filter(notices).count();
        (told > 0)
            .then(|| Noticing { stations: layout.station.iter().flatten().filter(notices).count(), told })
    }
}

#[cfg(test)]
mod tests {
    use super::Noticing;

    #[test]
    fn every_way_of_telling_of_some_adds_up_to_one() {
        // Each of the 2^5 - 1 sets of those told of, by its size.
        let sets = [5.0, 10.0, 10.0, 5.0, 1.0];
        let log = |told: usize| Noticing { stations: 5, told }.log(0.1);
        let sum: f64 = (1..=5).map(|told| sets[told - 1] * log(told).exp()).sum();
        assert!((sum - 1.0).abs() < 1e-12, "{sum}");
        assert!(Noticing { stations: 1, told: 1 }.log(0.1).abs() < 1e-12);
    }

    /// Against the integral over `q` that it stands for, by the rectangle rule.
    #[test]
    fn how_many_are_told_of_is_the_integral_over_how_much_is_told() {
        let (a, b) = (0.3_f64, 2.7_f64);
        let steps = 2_000_000;
        // With q = u^(1/a) the density q^(a - 1) is gone from the integral.
        let over = |value: &dyn Fn(f64) -> f64| -> f64 {
            let at = |step: usize| ((step as f64 + 0.5) / steps as f64).powf(1.0 / a);
            (0..steps).map(at).map(|q| (1.0 - q).powf(b - 1.0) * value(q)).sum::<f64>()
        };
        let any = over(&|q| 1.0 - (1.0 - q).powi(7));
        let these = over(&|q| q.powi(3) * (1.0 - q).powi(4));
        let found = Noticing { stations: 7, told: 3 }.log(0.1).exp();
        assert!((found / (these / any) - 1.0).abs() < 1e-4, "{found} {}", these / any);
    }
}
