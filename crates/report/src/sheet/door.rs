//! The sheet of one entrance.

use super::{calculation, caution, fact, findings, fittings, further};
use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::{figures, template, wording};
use latchline_assess::Missing;
use latchline_assess::door::circuit::Unknown;
use latchline_assess::door::sheet::{DoorSheet, LockSheet};
use latchline_assess::door::times::{Energised, HoldWinner};
use latchline_assess::door::words;
use latchline_finding::{Figure, Unit};
use latchline_site::model::{LockFeed, RelayContact};
use latchline_words::report::{Label, SheetHead, SheetWords};
use latchline_words::terms::Term;

/// The sheet of the entrance with this name; `None` if there is none in the assessment.
pub fn door(report: &Report<'_>, name: &str, look: &Look) -> Option<String> {
    let sheet = report.assessment?.doors.iter().find(|sheet| sheet.entrance.as_str() == name)?;
    let mut blocks = vec![head(sheet, look)];
    blocks.extend(sheet.locks.iter().map(|lock| lock_block(lock, look)));
    blocks.push(fittings::modules(sheet, look));
    blocks.push(fittings::lights(sheet, look));
    blocks.push(fittings::alarm_inputs(sheet, look));
    blocks.push(fittings::load(sheet, look));
    blocks.push(rules(sheet, look));
    blocks.push(findings(report, &sheet.entrance, look));
    blocks.push(caution(look));
    blocks.retain(|block| !block.is_empty());
    Some(blocks.join("\n"))
}

fn metres(value: f64, look: &Look) -> String {
    format!("{} m", look.decimals(figures::fixed(value, 2)))
}

fn seconds(value: f64, look: &Look) -> String {
    look.figure(Figure::new(value, Unit::Second))
}

/// Which of three words holds of something that the plan states, denies or leaves out.
fn stated<'a>(stated: Option<bool>, [yes, no, silent]: [SheetWords<'a>; 3]) -> SheetWords<'a> {
    match stated {
        Some(true) => yes,
        Some(false) => no,
        None => silent,
    }
}

fn head(sheet: &DoorSheet, look: &Look) -> String {
    let say = |words: SheetWords<'_>| words.say(look.language);
    let name = &template::plain(sheet.entrance.as_str());
    let mut text = format!("{}\n", look.bold(&say(SheetWords::Door { name })));
    let place = place(sheet, look);
    if !place.is_empty() {
        text.push_str(&fact(Label::Place, &place, look));
    }
    let outputs = sheet.lock_outputs as usize;
    text.push_str(&fact(
        Label::Station,
        &say(SheetWords::LockOutputs { station: &sheet.station, outputs }),
        look,
    ));
    let fire = [SheetWords::FireInterlock, SheetWords::NoFireInterlock, SheetWords::FireInterlockNotStated];
    let role = [escape_route(sheet, look), say(stated(sheet.fire_interlock, fire))];
    text.push_str(&fact(Label::Role, &role.join("; "), look));
    let range = &sheet.height_range;
    let published = &say(SheetWords::HeightRange {
        least: &metres(range.least_m, look),
        most: &metres(range.most_m, look),
        source: range.source.say(look.language),
    });
    let height = match sheet.control_height_m {
        Some(height_m) => say(SheetWords::ControlsAt { height: &metres(height_m, look), published }),
        None => say(SheetWords::HeightNotStated { published }),
    };
    text.push_str(&fact(Label::Height, &height, look));
    if let Some(also) = range.also {
        text.push_str(&fact(Label::Panel, also.say(look.language), look));
    }
    let heater = [SheetWords::HeaterAtNight, SheetWords::None, SheetWords::NotStatedNone];
    text.push_str(&fact(Label::Heater, &say(stated(sheet.heater, heater)), look));
    if sheet.locks.is_empty() {
        text.push_str(&fact(Label::Locks, &say(SheetWords::None), look));
    }
    text
}

/// Whether people escape through the door, and who said so.
fn escape_route(sheet: &DoorSheet, look: &Look) -> String {
    let say = |words: SheetWords<'_>| words.say(look.language);
    let by = sheet.escape_decided_by.as_deref().map(template::plain);
    let on = sheet.escape_decided_on.as_deref().map(template::plain);
    let Some(is_escape_route) = sheet.escape_route else {
        // Who said so stands there, although it is no decision.
        let told: Vec<String> = by.into_iter().chain(on).collect();
        let told = (!told.is_empty()).then(|| told.join(", "));
        let told = told.as_deref();
        return say(match sheet.is_judged_as_way_out {
            true => SheetWords::EscapeRouteNotKnown { told },
            false => SheetWords::GateNotKnown { told },
        });
    };
    let on = &on.unwrap_or_else(|| say(SheetWords::NoDate));
    let decided = &say(match &by {
        Some(by) => SheetWords::Decided { by, on },
        None => SheetWords::DecidedByNobody { on },
    });
    say(if is_escape_route {
        SheetWords::EscapeRoute { decided }
    } else {
        SheetWords::NoEscapeRoute { decided }
    })
}

/// Building, core and floor, and whether that is outdoors.
fn place(sheet: &DoorSheet, look: &Look) -> String {
    let place = sheet.place.of(look.language);
    if sheet.outdoors && !sheet.place.is_empty() && sheet.place != Term::Outdoors.both() {
        return SheetWords::PlaceOutdoors { place }.say(look.language);
    }
    place.to_string()
}

fn lock_block(lock: &LockSheet, look: &Look) -> String {
    let say = |words: SheetWords<'_>| words.say(look.language);
    let title = say(SheetWords::Lock { number: lock.number, model: &template::plain(&lock.model) });
    let mut text = format!("{}\n", look.bold(&title));
    let what = say(SheetWords::LockWhat {
        title: lock.title.of(look.language),
        kind: words::kind(lock.kind).say(look.language),
        power_loss: words::power_loss(lock.power_loss).say(look.language),
        current: words::current_kind(lock.current_kind).say(look.language),
    });
    text.push_str(&fact(Label::What, &what, look));
    text.push_str(&fact(Label::Power, words::feed(lock.wiring.feed).say(look.language), look));
    if let Some((cable, length_m)) = &lock.cable {
        let length = look.figure(Figure::new(*length_m, Unit::Metre));
        text.push_str(&fact(Label::Cable, &format!("{cable}, {length}"), look));
    }
    part_cables(lock, look, &mut text);
    match &lock.circuit {
        Ok(_) => {
            text.push_str(&fact(Label::Voltage, &say(SheetWords::AdverseCorner), look));
            text.push_str(&calculation(&lock.calculation, look));
        }
        Err(unknown) => text.push_str(&fact(Label::Voltage, &without_figures(unknown, look), look)),
    }
    wiring(lock, look, &mut text);
    times(lock, look, &mut text);
    inside(lock, look, &mut text);
    for (index, caution) in lock.cautions.iter().enumerate() {
        let caution = words::caution(*caution).say(look.language);
        text.push_str(&if index == 0 { fact(Label::Mind, caution, look) } else { further(caution, look) });
    }
    text
}

/// The cables to the other parts of its circuit.
fn part_cables(lock: &LockSheet, look: &Look, text: &mut String) {
    let uncounted = lock.circuit.as_ref().map_or(&[][..], |circuit| &circuit.uncounted);
    for (index, (part, cable)) in lock.part_cables.iter().enumerate() {
        let name = words::part_of(*part, lock.wiring.relay).say(look.language);
        let line = match cable {
            Some((cable, length_m)) => {
                let length = look.figure(Figure::new(*length_m, Unit::Metre));
                let cable = format!("{}, {length}", template::plain(cable));
                SheetWords::CableToPart { part: name, cable: &cable }.say(look.language)
            }
            None if uncounted.contains(part) => {
                SheetWords::PartCableNotCounted { part: name }.say(look.language)
            }
            None => SheetWords::PartCableNotStated { part: name }.say(look.language),
        };
        let is_first = index == 0 && lock.cable.is_none();
        text.push_str(&if is_first { fact(Label::Cable, &line, look) } else { further(&line, look) });
    }
}

fn without_figures(unknown: &Unknown, look: &Look) -> String {
    let language = look.language;
    match unknown {
        Unknown::NotNeeded => SheetWords::NoVoltageNeeded.say(language),
        Unknown::NoFeed(missing) => {
            SheetWords::NothingFeedsIt { missing: &missing.say(language) }.say(language)
        }
        Unknown::Missing(missing) => {
            SheetWords::NotJudged { missing: &Missing::list(missing, language) }.say(language)
        }
        Unknown::BusCollapses => SheetWords::BusCollapses.say(language),
    }
}

fn wiring(lock: &LockSheet, look: &Look, text: &mut String) {
    let wiring = &lock.wiring;
    let element = |element| words::element(element, wiring.is_ac).say(look.language);
    let contact = |contact| words::contact(contact).say(look.language);
    let chain: Vec<&str> = wiring.series.iter().map(|one| element(*one)).collect();
    text.push_str(&fact(Label::Wiring, &chain.join(" -> "), look));
    let mut add = |words: SheetWords<'_>| text.push_str(&further(&words.say(look.language), look));
    if wiring.feed != LockFeed::DryContact && wiring.contact != wiring.required_contact {
        let (stated, needed) = (contact(wiring.contact), contact(wiring.required_contact));
        add(SheetWords::ContactNeeded { stated, needed });
    }
    if let Some(through) = wiring.coil_contact {
        add(match through {
            RelayContact::NormallyClosed => SheetWords::CoilWhileShut { contact: contact(through) },
            RelayContact::NormallyOpen => SheetWords::CoilToRelease { contact: contact(through) },
        });
    }
    for one in &wiring.across_contact {
        add(SheetWords::AcrossContact { element: element(*one) });
    }
    if let Some(fitted) = wiring.across_lock {
        add(SheetWords::AcrossLock { part: words::suppression(fitted).say(look.language) });
    }
}

fn times(lock: &LockSheet, look: &Look, text: &mut String) {
    let Some(times) = &lock.times else { return };
    let say = |words: SheetWords<'_>| words.say(look.language);
    let (hold, plan) = (&seconds(times.hold.time_s, look), &seconds(times.plan_s, look));
    let mut line = say(match times.hold.winner {
        HoldWinner::Station if times.hold.time_s != times.plan_s && times.plan_is_stated => {
            SheetWords::HoldOfStationWins { hold, plan }
        }
        HoldWinner::Station => SheetWords::HoldOfStation { hold },
        HoldWinner::Plan if times.plan_is_stated => SheetWords::Hold { hold },
        HoldWinner::Plan => SheetWords::HoldByDefault { hold },
    });
    if lock.wiring.feed != LockFeed::DryContact {
        let energised = say(match times.energised {
            Energised::WhileReleased => SheetWords::EnergisedWhileReleased,
            Energised::WhileShut => SheetWords::EnergisedWhileShut,
        });
        let duty = match times.duty_limit_s {
            Some(limit_s) => say(SheetWords::AtMostAtAStretch { time: &seconds(limit_s, look) }),
            None => say(SheetWords::ContinuousDuty),
        };
        line = format!("{line}; {energised}, {duty}");
    }
    text.push_str(&fact(Label::Times, &line, look));
    if let Some(decay_s) = times.decay_s.filter(|decay_s| *decay_s > 0.0) {
        text.push_str(&further(&say(SheetWords::CoilDecays { time: &seconds(decay_s, look) }), look));
    }
    if let Some(delay_s) = lock.delayed_egress_s {
        text.push_str(&further(&say(SheetWords::DelayedEgress { delay: &seconds(delay_s, look) }), look));
    }
}

fn inside(lock: &LockSheet, look: &Look, text: &mut String) {
    use SheetWords as W;
    let facts = [
        stated(lock.exit_button, [W::ExitButton, W::NoExitButton, W::ExitButtonNotStated]),
        stated(
            lock.mechanical_escape,
            [W::MechanicalEscape, W::NoMechanicalEscape, W::MechanicalEscapeNotStated],
        ),
        stated(
            lock.emergency_release,
            [W::EmergencyRelease, W::NoEmergencyRelease, W::EmergencyReleaseNotStated],
        ),
        stated(lock.relay_on_secure_side, [W::RelayInside, W::RelayOutside, W::RelaySideNotStated]),
        stated(lock.door_contact, [W::DoorContact, W::NoDoorContact, W::DoorContactNotStated]),
    ];
    let facts = facts.map(|words| words.say(look.language));
    text.push_str(&fact(Label::Inside, &facts.join("; "), look));
}

fn rules(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.escape_rules.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold(SheetHead::Rules.say(look.language)));
    for rule in sheet.escape_rules {
        let summary = wording::capital(rule.summary.say(look.language));
        let line = format!("{}: {summary}", rule.source.say(look.language));
        text.push_str(&paragraph(&line, 2, look.width));
    }
    text
}
