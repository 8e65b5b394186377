//! What is kept of an assessment of a change: what was found, and the figures that remedies name.

use latchline_assess::rules::codes;
use latchline_assess::{Assessment, Missing, NotJudged};
use latchline_finding::{Argument, Brought, Code, ElementId, Figure, Finding, Rounded, Severity, Unit};
use std::collections::{BTreeMap, BTreeSet};

/// What names a finding across two assessments.
pub(crate) type Key = (Code, Option<ElementId>);

pub(crate) fn key(finding: &Finding) -> Key {
    (finding.code, finding.element.clone())
}

/// What could not be judged: the code, the element, and what was missing.
pub(crate) type Gap = (Code, ElementId, Missing);

pub(crate) fn gaps(not_judged: &[NotJudged]) -> BTreeSet<Gap> {
    let of = |entry: &NotJudged| -> Vec<Gap> {
        entry.elements.iter().map(|element| (entry.code, element.clone(), entry.missing.clone())).collect()
    };
    not_judged.iter().flat_map(of).collect()
}

/// A device: margin, voltage and highest voltage in volts.
#[derive(Debug, Clone, Copy)]
struct Voltages {
    margin_v: f64,
    adverse_v: Option<f64>,
    highest_v: f64,
}

/// The figures of an assessed change, and what was found in it.
#[derive(Debug)]
pub(crate) struct Outcome {
    /// Findings.
    pub found: BTreeSet<Key>,
    /// How much each of them matters, the worst of the same key.
    pub severity: BTreeMap<Key, Severity>,
    /// What could not be judged.
    pub gaps: BTreeSet<Gap>,
    devices: BTreeMap<ElementId, Voltages>,
    /// Largest current in amperes and power in watts of each source.
    sources: BTreeMap<ElementId, (Option<f64>, Option<f64>)>,
    /// Largest current at the start of the first run from each port, in amperes.
    ports: BTreeMap<ElementId, Option<f64>>,
    /// Least voltage of the locks by entrance and number.
    locks: BTreeMap<(ElementId, usize), f64>,
    /// Shortest hours of each battery.
    hours: BTreeMap<ElementId, f64>,
}

impl Outcome {
    /// Keeps the figures.
    pub fn of(assessment: &Assessment) -> Self {
        let device = |one: &latchline_assess::DeviceResult| {
            let voltages = Voltages {
                margin_v: one.worst.margin_v(),
                adverse_v: one.worst.adverse_v,
                highest_v: one.highest_v,
            };
            (one.id.clone(), voltages)
        };
        let mut ports = BTreeMap::new();
        for run in &assessment.runs {
            ports.entry(run.from.clone()).or_insert(run.current.current_a);
        }
        let mut locks = BTreeMap::new();
        for door in &assessment.doors {
            for lock in &door.locks {
                if let Ok(circuit) = &lock.circuit {
                    locks.entry((door.entrance.clone(), lock.number)).or_insert(circuit.least_v);
                }
            }
        }
        let mut severity = BTreeMap::new();
        for finding in &assessment.findings {
            let worst = severity.entry(key(finding)).or_insert(finding.severity);
            *worst = finding.severity.max(*worst);
        }
        let hours = assessment.supply_sheets.iter().filter_map(|sheet| {
            let battery = sheet.battery.as_ref()?.as_ref().ok()?;
            Some((sheet.supply.clone(), battery.shortest()?.hours))
        });
        Outcome {
            found: assessment.findings.iter().map(key).collect(),
            severity,
            gaps: gaps(&assessment.not_judged),
            devices: assessment.devices.iter().map(device).collect(),
            sources: assessment
                .sources
                .iter()
                .map(|one| (one.id.clone(), (one.current.current_a, one.power_w)))
                .collect(),
            ports,
            locks,
            hours: hours.collect(),
        }
    }

    /// What was found that was not known before.
    pub fn brought(&self, known: &BTreeSet<Key>) -> Vec<Brought> {
        let new = self.severity.iter().filter(|(key, _)| !known.contains(key));
        new.map(|((code, element), severity)| Brought {
            code: *code,
            severity: *severity,
            element: element.clone(),
        })
        .collect()
    }

    /// How much the worst finding matters that was not known before.
    pub fn worst_brought(&self, known: &BTreeSet<Key>) -> Option<Severity> {
        self.severity.iter().filter(|(key, _)| !known.contains(key)).map(|(_, severity)| *severity).max()
    }

    /// The figure that a finding was about, after the change: for devices their worst voltage, for
    /// supplies and ports their largest current. What must not be less is rounded down where it is shown, what must not be more up.
    pub fn value_after(&self, finding: &Finding) -> Option<Rounded> {
        let element = finding.element.as_ref()?;
        let unit = finding.value?.unit;
        let device = || self.devices.get(element);
        let value = match finding.code {
            codes::THIN_MARGIN => device()?.margin_v,
            codes::VOLTAGE_TOO_LOW => device()?.adverse_v?,
            codes::VOLTAGE_TOO_HIGH => device()?.highest_v,
            codes::SUPPLY_OVERLOADED => {
                let (current_a, power_w) = self.sources.get(element)?;
                (*if unit == Unit::Watt { power_w } else { current_a })?
            }
            codes::PORT_OVERLOADED => (*self.ports.get(element)?)?,
            codes::LOCK_VOLTAGE_TOO_LOW => {
                let number = match finding.argument("number") {
                    Some(Argument::Figure(number)) => number.value as usize,
                    _ => 1,
                };
                *self.locks.get(&(element.clone(), number))?
            }
            codes::BATTERY_HOURS_SHORT => *self.hours.get(element)?,
            _ => return None,
        };
        let figure = Figure::new(value, unit);
        Some(match finding.code {
            codes::VOLTAGE_TOO_HIGH | codes::SUPPLY_OVERLOADED | codes::PORT_OVERLOADED => {
                Rounded::up(figure)
            }
            _ => Rounded::down(figure),
        })
    }
}
