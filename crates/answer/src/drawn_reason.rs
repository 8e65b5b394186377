//! Which finding of the check explains what is told of a place where its voltage does not.

use latchline_assess::Assessment;
use latchline_assess::rules::codes as rules;
use latchline_finding::{Code, ElementId, Finding, Severity};
use latchline_locate::SymptomKind;
use latchline_site::codes as numbers;
use latchline_site::model::{Site, StationOwner};
use std::cmp::Reverse;

/// The gravest error or warning at a station, or at the dwelling or entrance that it is of, that shows as one of these.
pub(crate) fn reason<'a>(
    assessment: &'a Assessment,
    site: &Site,
    station: usize,
    symptoms: &[SymptomKind],
) -> Option<&'a Finding> {
    let own = &site.stations[station];
    let owner: &ElementId = match own.owner {
        StationOwner::Dwelling { dwelling, .. } => &site.dwellings[dwelling].id,
        StationOwner::Entrance(entrance) => &site.entrances[entrance].id,
        StationOwner::Management(_) => &own.id,
    };
    // What a supply does when power returns shows at all that hang on it.
    let source = assessment.devices.iter().find(|device| device.id == own.id).map(|device| &device.source);
    let is_there = |found: &&Finding| {
        let at = |place: &ElementId| found.element.as_ref() == Some(place);
        at(&own.id) || at(owner) || START.contains(&found.code) && source.is_some_and(at)
    };
    let there =
        assessment.findings.iter().filter(is_there).filter(|found| found.severity >= Severity::Warning);
    let shown = there.filter_map(|found| {
        let near = symptoms.iter().filter_map(|symptom| shows_as(found.code, *symptom)).min()?;
        Some((near, Reverse(found.severity), found))
    });
    // What is nearest to the symptom, of several the gravest, of several as grave the first in the order of the list.
    shown.min_by_key(|(near, severity, _)| (*near, *severity)).map(|(_, _, found)| found)
}

/// What may do anything to a station: parts of two systems on one bus, or more than a part bears.
const ANYTHING: &[Code] = &[rules::MIXED_FAMILIES, rules::BUS_OF_ANOTHER_FAMILY, rules::VOLTAGE_TOO_HIGH];

/// What stands in the way of a signal.
const WAY: &[Code] = &[
    rules::CALL_ACROSS_BUSES,
    rules::LINK_NOT_WIRED,
    rules::SIGNAL_TOO_WEAK,
    rules::SIGNAL_NOTCH,
    rules::SIGNAL_RIPPLE,
    rules::TERMINATOR_MISSING,
    rules::TERMINATOR_WITHOUT_CAPACITOR,
    rules::TERMINATOR_MISPLACED,
    rules::TERMINATOR_DOUBLED,
    rules::TERMINATOR_NOT_NEEDED,
];

/// What keeps a lock from releasing.
const LOCKS: &[Code] = &[
    rules::LOCK_FEED_MISSING,
    rules::LOCK_VOLTAGE_TOO_LOW,
    rules::LOCK_VOLTAGE_TOO_HIGH,
    rules::LOCK_CURRENT_KIND,
    rules::LOCK_OUTPUTS_EXCEEDED,
    rules::LOCK_OUTPUT_OVERLOADED,
    rules::LOCK_CONTACT_WIRING,
    rules::LOCK_DUTY_EXCEEDED,
    rules::RELAY_OVERLOADED,
];

/// What lets a call go nowhere or elsewhere.
const CALLS: &[Code] = &[
    rules::DWELLING_WITHOUT_ENTRANCE,
    rules::ENTRANCE_CALLS_NOBODY,
    rules::CALL_BUTTONS_TOO_FEW,
    rules::DIRECTORY_TOO_SMALL,
    numbers::ADDRESS_OUT_OF_RANGE,
    numbers::ADDRESS_RESERVED,
    numbers::ADDRESS_DUPLICATE,
    numbers::ADDRESS_NOT_OF_NAME,
    numbers::ADDRESS_REPEATED,
    numbers::ADDRESS_NOT_EXPRESSIBLE,
];

/// What happens when power returns, that which shows in a system that runs first.
const START: &[Code] =
    &[rules::START_UP_DIP, rules::START_UP_HICCUPS, rules::START_UP_FAILS, rules::START_UP_DROPOUTS];

/// How near a finding is to a symptom, the nearest 0, by what its code is about (common practice, no source); `None` where it does not show so.
fn shows_as(code: Code, symptom: SymptomKind) -> Option<usize> {
    let nearest = |groups: &[&[Code]]| groups.iter().position(|kinds| kinds.contains(&code));
    match symptom {
        SymptomKind::NoRelease => nearest(&[LOCKS, &[rules::HOLD_TIME_OVERRIDDEN], ANYTHING]),
        SymptomKind::NoPicture | SymptomKind::NoSpeech | SymptomKind::Ghosting | SymptomKind::Noise => {
            nearest(&[WAY, ANYTHING])
        }
        SymptomKind::DoesNotRing => nearest(&[CALLS, WAY, ANYTHING]),
        SymptomKind::AfterPowerCut => nearest(&[&[rules::START_UP_DIP], START, ANYTHING]),
        SymptomKind::Dead
        | SymptomKind::NotFound
        | SymptomKind::Restarts
        | SymptomKind::Dim
        | SymptomKind::ComesAndGoes => nearest(&[ANYTHING]),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_assess::rules::ALL;

    /// A rule of a group by its name is in the group, so that a new one is not forgotten.
    #[test]
    fn every_rule_of_a_group_is_in_it() {
        let codes = || ALL.iter().map(|rule| rule.doc.code).chain(numbers::CODES.iter().map(|doc| doc.code));
        // Refused when the file is read, so that no such site is ever looked at.
        let read_only = [numbers::LOCK_GIVEN_TWICE];
        for (prefix, group) in [
            ("signal-", WAY),
            ("terminator-", WAY),
            ("lock-", LOCKS),
            ("address-", CALLS),
            ("start-up-", START),
        ] {
            let named: Vec<Code> = codes().filter(|code| code.as_str().starts_with(prefix)).collect();
            assert!(named.len() > 1, "{prefix}");
            for code in named {
                assert!(group.contains(&code) || read_only.contains(&code), "{code} is in no group");
            }
        }
    }
}
