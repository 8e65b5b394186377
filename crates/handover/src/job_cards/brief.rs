//! The few words that a card has for a step; in the order of work it is said at length.

use super::assigned::{AssignedStep, Spot};
use crate::commissioning::Taken;
use crate::language::{Sentence, Word};
use crate::step::Expected;
use crate::subject::Subject;
use latchline_assess::Reading;
use latchline_finding::StateKind;
use latchline_wiring::Item;

/// Words of a step, and whether it is only ticked.
pub struct Brief {
    /// What is read or done.
    pub words: String,
    /// Whether several stand on a line.
    pub is_tick: bool,
}

/// Steps that a card says in few words, with these words.
const TICKS: [(Word, Word); 28] = [
    (Word::MountAndWire, Word::BriefMounted),
    (Word::ReleaseAndVolume, Word::BriefRelease),
    (Word::DisconnectBattery, Word::BriefBatteryOff),
    (Word::ConnectBattery, Word::BriefBatteryOn),
    (Word::AllRunsOff, Word::BriefRunsOff),
    (Word::ProveDead, Word::BriefDead),
    (Word::NoShortAtOutput, Word::BriefNoShort),
    (Word::PlugIn, Word::BriefPluggedIn),
    (Word::PortsOff, Word::BriefPortsOff),
    (Word::SystemOff, Word::BriefSystemOff),
    (Word::LightSupplyOff, Word::BriefLightSupplyOff),
    (Word::SystemOnAgain, Word::BriefSystemOn),
    (Word::TryEmergencyRelease, Word::BriefEmergency),
    (Word::WiredAsDrawn, Word::BriefWired),
    (Word::WiredWithDiode, Word::BriefWiredDiode),
    (Word::FitProtector, Word::BriefProtector),
    (Word::TryExitButton, Word::BriefExit),
    (Word::InterfaceCutTest, Word::BriefInterfaceCut),
    (Word::LockWithoutPower, Word::BriefWithoutPower),
    (Word::EscapeWithoutSystem, Word::BriefEscape),
    (Word::WiredToOwner, Word::BriefWiredToOwner),
    (Word::WiredSupplyWithoutLock, Word::BriefWiredSupply),
    (Word::ProveNoForeignVoltage, Word::BriefForeignVoltage),
    (Word::LockIsOffItsSupply, Word::BriefLockOff),
    (Word::ConnectLockToSupply, Word::BriefConnectLock),
    (Word::OwnerSwitchesOn, Word::BriefOwnerOn),
    (Word::DriveWithoutCommand, Word::BriefDriveLeft),
    (Word::DelayEndsWithoutPower, Word::BriefDelayWithoutPower),
];

/// The same for steps at which something is read or written.
const READ: [(Word, Word); 2] = [
    (Word::VoltageOnBattery, Word::BriefOnBattery),
    (Word::OwnerDisablesFireContact, Word::BriefFireDisabled),
];

/// The same for steps that are sentences.
fn tick_of_sentence(at: &AssignedStep) -> Option<Word> {
    match (at.stage, at.spot) {
        (Word::StageSet, _) => Some(Word::BriefSet),
        (Word::StageTerminate, _) => Some(Word::BriefPolarity),
        // Of a supply its voltage is set, which is said as it stands.
        (Word::StagePowerUp, Some(Spot::Run(_))) => Some(Word::BriefConnected),
        _ => None,
    }
}

/// The few words of a step; `None` where it is said as it stands.
pub fn brief(subject: &Subject<'_>, at: &AssignedStep) -> Option<Brief> {
    let locale = &subject.locale;
    let step = &at.step;
    if let Some(words) = step.in_brief {
        return Some(Brief { words: locale.word(words).to_string(), is_tick: false });
    }
    if matches!(step.expected, Expected::Done | Expected::Polarity) {
        let fixed = TICKS.iter().find(|(whole, _)| step.what == locale.word(*whole));
        let words = match fixed {
            Some((_, words)) => locale.word(*words).to_string(),
            None if at.stage == Word::StagePull => {
                format!("{} {}", step.place, locale.word(Word::BriefPulled))
            }
            // The switches are drawn above the box.
            None if at.stage == Word::StageSet => locale.word(Word::BriefSetHere).to_string(),
            None => locale.word(tick_of_sentence(at)?).to_string(),
        };
        return Some(Brief { words, is_tick: true });
    }
    if step.what == locale.word(Word::MeasureInsulation) {
        let words = match step.instrument {
            Some(Word::OhmmeterOnly) => Word::BriefInsulationOld,
            _ => Word::BriefInsulation,
        };
        return Some(Brief { words: locale.word(words).to_string(), is_tick: false });
    }
    let in_few = READ.iter().find(|(whole, _)| step.what == locale.word(*whole)).map(|(_, words)| *words);
    let at_rest = matches!((at.stage, step.expected), (Word::StageBatteries, Expected::Between(..)));
    if let Some(words) = in_few.or_else(|| at_rest.then_some(Word::BriefBatteryAtRest)) {
        return Some(Brief { words: locale.word(words).to_string(), is_tick: false });
    }
    let loops = [Word::MeasureLockLoop, Word::MeasurePartLoop, Word::MeasureContactLoop];
    if loops.iter().any(|whole| step.what == locale.word(*whole)) {
        return Some(Brief { words: locale.word(Word::BriefLoop).to_string(), is_tick: false });
    }
    let words = match step.taken.as_ref()? {
        Taken::Insulation { .. } => return None,
        // Once there is power, what must be switched off and unplugged for it is said in full.
        Taken::Predicted(Reading::LoopResistance { .. }) if at.is_live => return None,
        Taken::Predicted(Reading::LoopResistance { .. }) => locale.word(Word::BriefLoop).to_string(),
        Taken::Predicted(Reading::Capacitance { .. }) => locale.word(Word::BriefCapacitance).to_string(),
        Taken::Predicted(Reading::OpenCircuitVoltage { .. }) => {
            locale.word(Word::BriefOpenCircuit).to_string()
        }
        Taken::Predicted(Reading::Current { .. }) => locale.word(Word::BriefCurrent).to_string(),
        Taken::Predicted(Reading::Drop { run, first, last, state }) => {
            let run = &subject.site.runs[*run];
            let name = if *first == 0 && *last + 1 == run.sections.len() {
                run.id.to_string()
            } else {
                format!("{}/{}", run.id, last + 1)
            };
            let id = |station: usize| subject.site.stations[station].id.as_str();
            match state.calls.first() {
                None => {
                    locale.say(&Sentence::BriefDrop { run: &name, moment: locale.word(Word::BriefInStandby) })
                }
                Some(call) => locale.say(&Sentence::BriefDropTalking {
                    run: &name,
                    caller: id(call.caller),
                    station: id(call.answering),
                }),
            }
        }
        Taken::Predicted(Reading::Voltage { state, .. }) => match state.calls.first() {
            Some(call) => {
                let caller = subject.site.stations[call.caller].id.as_str();
                locale.say(&Sentence::BriefTalk { caller })
            }
            None if state.kind == StateKind::StandbyDay => match terminals_read(subject, at) {
                Some(terminals) => locale.say(&Sentence::BriefStandbyAt { terminals: &terminals }),
                None => locale.word(Word::BriefStandby).to_string(),
            },
            None => return None,
        },
    };
    Some(Brief { words, is_tick: false })
}

/// At which terminals of a box its voltage is read, where several runs end at it; `None` where one does.
fn terminals_read(subject: &Subject<'_>, at: &AssignedStep) -> Option<String> {
    let Some(Spot::Item(item @ Item::Box(_))) = at.spot else { return None };
    let ends = subject.runs_into(item);
    if ends.len() < 2 {
        return None;
    }
    let says = |run: usize| {
        let run = subject.site.runs[run].id.as_str();
        subject.locale.say(&Sentence::VoltageAtEnd { run })
    };
    ends.into_iter().find(|(run, _)| says(*run) == at.step.what).map(|(_, terminals)| terminals)
}

/// What the order of work says of a step, without the names of one place: at length what the cards have in few words. `None` where only the
/// step itself says what it is.
pub(super) fn in_general<'s>(subject: &Subject<'s>, at: &'s AssignedStep) -> Option<&'s str> {
    let step = &at.step;
    if step.is_general {
        return Some(step.what.as_str());
    }
    if let Some(word) = step.in_general {
        return Some(subject.locale.word(word));
    }
    let word = match (&step.expected, &step.taken) {
        (Expected::Done | Expected::Polarity, _) if at.stage == Word::StagePull => Word::BriefPulledEach,
        (Expected::Done | Expected::Polarity, _) => tick_of_sentence(at)?,
        (_, Some(Taken::Predicted(Reading::LoopResistance { .. }))) if at.is_live => return None,
        (_, Some(Taken::Predicted(Reading::LoopResistance { .. }))) => Word::BriefLoop,
        (_, Some(Taken::Predicted(Reading::Capacitance { .. }))) => Word::BriefCapacitance,
        (_, Some(Taken::Predicted(Reading::OpenCircuitVoltage { .. }))) => Word::BriefOpenCircuit,
        (_, Some(Taken::Predicted(Reading::Current { .. }))) => Word::BriefCurrent,
        (_, Some(Taken::Predicted(Reading::Drop { .. }))) => Word::BriefDropOfRun,
        (_, Some(Taken::Predicted(Reading::Voltage { .. }))) => Word::BriefVoltage,
        _ => return None,
    };
    Some(subject.locale.word(word))
}
