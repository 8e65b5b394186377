//! What designs are compared by.

use crate::outcome::Design;
use latchline_finding::{ElementId, Finding, Money, Severity};
use latchline_site::catalogue::BoxRole;
use latchline_site::model::RunStart;
use latchline_words::figures;

/// What a person weighs one design against another by.
#[derive(Debug, Clone, PartialEq)]
pub struct Merits {
    /// Material and labour.
    pub cost: Money,
    /// The device that has the least above its limit, and how many volts that is.
    pub margin: Option<(ElementId, f64)>,
    /// The station that hears its caller least within what the band allows.
    pub signal: Option<SignalMargin>,
    /// The most dwellings that one broken joint of a run silences.
    pub largest_group: usize,
    /// Warnings of its check that nobody accepted.
    pub warnings: usize,
    /// Labour in minutes.
    pub labour_minutes: f64,
    /// Ports of its distributors that nothing hangs on.
    pub spare_ports: usize,
}

/// What is left of the loss that a band allows.
#[derive(Debug, Clone, PartialEq)]
pub struct SignalMargin {
    /// Who hears.
    pub station: ElementId,
    /// Who calls.
    pub caller: ElementId,
    /// What the band carries.
    pub band: String,
    /// What is left, in decibel.
    pub margin_db: f64,
}

impl Merits {
    /// Of a design.
    pub fn of(design: &Design) -> Merits {
        let assessment = &design.assessment;
        let tightest = assessment.tightest_device().map(|at| &assessment.devices[at]);
        let bands = assessment.signal.iter().map(|band| SignalMargin {
            station: band.worst.station.clone(),
            caller: band.worst.caller.clone(),
            band: band.band.clone(),
            margin_db: band.in_hand_db(&band.worst),
        });
        Merits {
            cost: design.cost,
            margin: tightest.map(|device| (device.id.clone(), device.worst.margin_v())),
            signal: bands.min_by(|a, b| a.margin_db.total_cmp(&b.margin_db)),
            largest_group: design.largest_group,
            warnings: warnings(design).count(),
            labour_minutes: design.minutes,
            spare_ports: spare_ports(design),
        }
    }

    /// As it is shown: hundredths of the currency and of volts, tenths of decibels; more is better in each.
    fn shown(&self) -> [i64; 5] {
        let count = |count: usize| i64::try_from(count).unwrap_or(i64::MAX);
        // What is not known is nothing to choose by.
        let steps = |value: Option<f64>, decimals: usize, each: f64| {
            value.map_or(0, |value| (figures::down(value, decimals) / each).round() as i64)
        };
        [
            -self.cost.as_hundredths(),
            steps(self.margin.as_ref().map(|(_, margin_v)| *margin_v), 2, 0.01),
            steps(self.signal.as_ref().map(|signal| signal.margin_db), 1, 0.1),
            -count(self.largest_group),
            -count(self.warnings),
        ]
    }

    /// Whether it is as good as the other in price, volts, decibels, dwellings silenced and warnings, as they are shown.
    pub fn is_as_good_as(&self, other: &Merits) -> bool {
        self.shown().iter().zip(other.shown()).all(|(own, theirs)| *own >= theirs)
    }

    /// Whether both are the same in all of that.
    pub fn is_tied_with(&self, other: &Merits) -> bool {
        self.shown() == other.shown()
    }
}

/// Warnings of a design that nobody accepted: what a person must know before it is ordered.
pub fn warnings(design: &Design) -> impl Iterator<Item = &Finding> {
    let findings = design.assessment.findings.iter();
    findings.filter(|finding| finding.severity == Severity::Warning && finding.accepted.is_none())
}

fn spare_ports(design: &Design) -> usize {
    let site = &design.site;
    let on_box = |index: usize| {
        let starts_here =
            |start: RunStart| matches!(start, RunStart::Port { box_index, .. } if box_index == index);
        site.runs.iter().filter(|run| starts_here(run.from)).count()
    };
    let distributors = site
        .boxes
        .iter()
        .enumerate()
        .filter(|(_, item)| site.box_model(item).role.value == BoxRole::Distributor);
    distributors
        .map(|(index, item)| (site.box_model(item).ports.value as usize).saturating_sub(on_box(index)))
        .sum()
}
