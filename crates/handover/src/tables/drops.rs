//! The drops over a run: what shows a joint that no single voltage shows.

use super::at::At;
use super::steps::{Steps, run_end};
use crate::language::{Sentence, Word};
use crate::locale::Rounding;
use crate::step::{Expected, Taken};
use latchline_assess::{DROP_METER_V, Reading, SectionJoint};
use latchline_finding::Unit;

/// What a commissioning sheet says of drops before its first row.
pub(super) fn note(steps: &mut Steps<'_, '_>) {
    let accuracy = steps.subject.locale.in_words(DROP_METER_V, Unit::Volt);
    steps.note_sentence(&Sentence::DropNote { accuracy: &accuracy });
}

/// Asks for the drop over a run in standby and under a call, says which joint they show, and asks for more where one that
/// they hide would fail the site.
pub(super) fn read(steps: &mut Steps<'_, '_>, run: usize, start: &str) {
    let subject = steps.subject;
    let sections = &subject.site.runs[run].sections;
    let Some(last) = sections.len().checked_sub(1) else { return };
    match carries_current(steps, run, last) {
        None => return,
        Some(false) => {
            steps.tell(At::Run(run), subject.locale.word(Word::NoDropOnLink).to_string());
            return;
        }
        Some(true) => {}
    }
    over(steps, run, (0, last), start);
    let joints: Vec<&SectionJoint> = subject.readings.joints_of(run).collect();
    if joints.is_empty() {
        return;
    }
    say_what_shows(steps, run, &joints);
    for joint in joints.iter().filter(|joint| joint.hides_a_failure()) {
        say_what_hides(steps, joint);
        // A run of one section has been read already.
        if last > 0 {
            let before = joint.section.checked_sub(1).map(|before| sections[before].to);
            let from = before.map_or(start.to_string(), |stop| subject.site.stop_id(stop).to_string());
            over(steps, run, (joint.section, joint.section), &from);
        }
        if last == 0 || joint.hides_a_failure_alone() {
            say_what_stays_hidden(steps, joint);
        }
    }
}

/// Whether a current flows through a run; `None` where no drop over it is predicted. A link that carries signals alone loses nothing, with
/// or without a joint.
fn carries_current(steps: &Steps<'_, '_>, run: usize, last: usize) -> Option<bool> {
    let readings = steps.subject.readings;
    let drops = readings.drops(run, 0, last);
    let mut predicted = drops.iter().filter_map(|reading| readings.get(reading)).peekable();
    predicted.peek()?;
    Some(predicted.any(|drop| drop.highest.value > 0.0))
}

/// The rows of the drops over some sections.
fn over(steps: &mut Steps<'_, '_>, run: usize, (first, last): (usize, usize), from: &str) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    let stop = site.runs[run].sections[last].to;
    let end = site.stop_id(stop).as_str();
    for reading in subject.readings.drops(run, first, last) {
        let Some(prediction) = subject.readings.get(&reading) else { continue };
        let Reading::Drop { state, .. } = &reading else { continue };
        let call = state
            .calls
            .first()
            .map(|call| (site.stations[call.caller].id.as_str(), site.stations[call.answering].id.as_str()));
        let what = locale.say(&match call {
            None => Sentence::DropInStandby { from, end },
            Some((caller, station)) => Sentence::DropInACall { caller, station },
        });
        steps.read(stop, what, Word::Voltmeter, Expected::Between(prediction.into(), Unit::Volt));
        steps.takes(Taken::Predicted(reading.clone()));
    }
}

/// Ohms of a joint, rounded to the side that promises less.
fn ohms(steps: &Steps<'_, '_>, ohm: f64, rounding: Rounding) -> String {
    let locale = &steps.subject.locale;
    locale.cell_text(&locale.quantity_with(ohm, Unit::Ohm, 1, rounding), None)
}

fn say_what_shows(steps: &mut Steps<'_, '_>, run: usize, joints: &[&SectionJoint]) {
    let (site, locale) = (steps.subject.site, &steps.subject.locale);
    let revealed_ohm = |joint: &SectionJoint| joint.revealed_ohm.unwrap_or(f64::INFINITY);
    let most_ohm = joints.iter().map(|joint| revealed_ohm(joint)).fold(0.0, f64::max);
    let most = &ohms(steps, most_ohm, Rounding::Up);
    let failing = joints.iter().filter_map(|joint| Some((joint, joint.fails?)));
    let what = match failing.min_by(|(_, one), (_, other)| one.ohm.total_cmp(&other.ohm)) {
        Some((tightest, first)) => {
            let device = first.device.id(site).as_str();
            let fails = &ohms(steps, first.ohm, Rounding::Down);
            // Each length by its own figures where one of the run's, taken together, would read as if a failing joint went unseen.
            if most_ohm > first.ohm && !tightest.hides_a_failure() {
                let end = site.stop_id(site.runs[run].sections[tightest.section].to).as_str();
                let joint = &ohms(steps, revealed_ohm(tightest), Rounding::Up);
                locale.say(&Sentence::JointShowsByLength { end, joint, device, fails, most })
            } else {
                locale.say(&Sentence::JointShows { joint: most, device, fails })
            }
        }
        None => locale.say(&Sentence::JointShowsAndNoneFails { joint: most }),
    };
    steps.tell(At::Run(run), what);
}

fn say_what_hides(steps: &mut Steps<'_, '_>, joint: &SectionJoint) {
    let (site, locale) = (steps.subject.site, &steps.subject.locale);
    let Some(fails) = joint.fails else { return };
    let run = &site.runs[joint.run];
    let end = site.stop_id(run.sections[joint.section].to).as_str();
    let hidden = ohms(steps, joint.revealed_ohm.unwrap_or(f64::INFINITY), Rounding::Up);
    let what = locale.say(&Sentence::JointHides {
        end,
        joint: &hidden,
        device: fails.device.id(site).as_str(),
        fails: &ohms(steps, fails.ohm, Rounding::Down),
    });
    steps.tell(At::Run(joint.run), what);
}

/// Where no drop shows it, the dead loop does: its range is narrower than what the joint adds.
fn say_what_stays_hidden(steps: &mut Steps<'_, '_>, joint: &SectionJoint) {
    let (site, locale) = (steps.subject.site, &steps.subject.locale);
    let run = &site.runs[joint.run];
    let from = site.start_id(run.from);
    let end = run_end(steps.subject, joint.run);
    let what = locale.say(&Sentence::LoopAgain { from: from.as_str(), end: &end });
    let expected = Expected::predicted(steps.subject.readings.loop_resistance(joint.run), Unit::Ohm);
    steps.read(At::Run(joint.run), what, Word::Ohmmeter, expected);
    steps.takes(Taken::Predicted(Reading::LoopResistance { run: joint.run }));
}
