//! The sheet of one entrance.

use super::english;
use super::{calculation, caution, fact, findings, fittings, words};
use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::{figures, template, wording};
use latchline_assess::door::circuit::Unknown;
use latchline_assess::door::sheet::{DoorSheet, LockSheet};
use latchline_assess::door::times::{Energised, HoldWinner};
use latchline_finding::{Figure, Unit};
use latchline_site::model::{LockFeed, RelayContact};

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

fn metres(value: f64) -> String {
    format!("{} m", figures::fixed(value, 2))
}

fn seconds(value: f64) -> String {
    english::sentence(Figure::new(value, Unit::Second))
}

fn head(sheet: &DoorSheet, look: &Look) -> String {
    let name = template::plain(sheet.entrance.as_str());
    let mut text = format!("{}\n", look.bold(&format!("Door {name}")));
    let mut place = sheet.place.clone();
    if sheet.outdoors && !place.is_empty() && place != "outdoors" {
        place.push_str(", outdoors");
    }
    if !place.is_empty() {
        text.push_str(&fact("Place", &place, look));
    }
    let outputs = match sheet.lock_outputs {
        1 => String::from("1 lock output"),
        count => format!("{count} lock outputs"),
    };
    text.push_str(&fact("Station", &format!("{}, {outputs}", sheet.station), look));
    let role = |stated: Option<bool>, yes: &str, no: &str, name: &str| match stated {
        Some(true) => yes.to_string(),
        Some(false) => no.to_string(),
        None => format!("{name} not stated (default: none)"),
    };
    let route = role(sheet.escape_route, "escape route", "not an escape route", "escape route");
    let fire = role(sheet.fire_interlock, "fire interlock", "no fire interlock", "fire interlock");
    text.push_str(&fact("Role", &format!("{route}; {fire}"), look));
    let range = &sheet.height_range;
    let published = format!(
        "{} to {} by {}",
        metres(range.least_m),
        metres(range.most_m),
        range.source.say(look.language)
    );
    let height = match sheet.control_height_m {
        Some(height_m) => format!("controls at {}; {published}", metres(height_m)),
        None => format!("not stated; {published}"),
    };
    text.push_str(&fact("Height", &height, look));
    if let Some(also) = range.also {
        text.push_str(&fact("Panel", also.say(look.language), look));
    }
    let heater = match sheet.heater {
        Some(true) => "fitted, on at night",
        Some(false) => "none",
        None => "not stated (default: none)",
    };
    text.push_str(&fact("Heater", heater, look));
    if sheet.locks.is_empty() {
        text.push_str(&fact("Locks", "none", look));
    }
    text
}

fn lock_block(lock: &LockSheet, look: &Look) -> String {
    let title = format!("Lock {}: {}", lock.number, template::plain(&lock.model));
    let mut text = format!("{}\n", look.bold(&title));
    let what = format!(
        "{}: {}, {}, for {}",
        lock.title,
        words::kind(lock.kind),
        words::power_loss(lock.power_loss),
        words::current_kind(lock.current_kind)
    );
    text.push_str(&fact("What", &what, look));
    text.push_str(&fact("Power", words::feed(lock.wiring.feed), look));
    if let Some((cable, length_m)) = &lock.cable {
        let length = english::sentence(Figure::new(*length_m, Unit::Metre));
        text.push_str(&fact("Cable", &format!("{cable}, {length}"), look));
    }
    match &lock.circuit {
        Ok(_) => {
            text.push_str(&fact("Voltage", "at the adverse corner of tolerance:", look));
            text.push_str(&calculation(&lock.calculation, look));
        }
        Err(unknown) => text.push_str(&fact("Voltage", &without_figures(unknown), look)),
    }
    wiring(lock, look, &mut text);
    times(lock, look, &mut text);
    inside(lock, look, &mut text);
    for (index, caution) in lock.cautions.iter().enumerate() {
        let label = if index == 0 { "Mind" } else { "" };
        text.push_str(&fact(label, words::caution(*caution), look));
    }
    text
}

fn without_figures(unknown: &Unknown) -> String {
    match unknown {
        Unknown::NotNeeded => String::from("none to judge: the drive has power of its own"),
        Unknown::NoFeed(missing) => format!("nothing feeds it; missing: {missing}"),
        Unknown::Missing(missing) => format!("not judged; needs {}", missing.join(", ")),
        Unknown::BusCollapses => String::from("not judged: the bus has no operating point there"),
    }
}

fn wiring(lock: &LockSheet, look: &Look, text: &mut String) {
    let wiring = &lock.wiring;
    let chain: Vec<&str> =
        wiring.series.iter().map(|element| words::element(*element, wiring.is_ac)).collect();
    text.push_str(&fact("Wiring", &chain.join(" -> "), look));
    if wiring.feed != LockFeed::DryContact && wiring.contact != wiring.required_contact {
        let stated = words::contact(wiring.contact);
        let needed = words::contact(wiring.required_contact);
        text.push_str(&fact("", &format!("the plan says {stated}; this lock needs {needed}"), look));
    }
    if let Some(contact) = wiring.coil_contact {
        let when = match contact {
            RelayContact::NormallyClosed => "energised while the door is shut",
            RelayContact::NormallyOpen => "energised to release",
        };
        let line = format!(
            "coil of the relay in between: {when}, through the station's {}",
            words::contact(contact)
        );
        text.push_str(&fact("", &line, look));
    }
    for element in &wiring.across_contact {
        let line = format!("across the relay's contact: {}", words::element(*element, wiring.is_ac));
        text.push_str(&fact("", &line, look));
    }
    if let Some(fitted) = wiring.across_lock {
        text.push_str(&fact("", &format!("across the lock: {}", words::suppression(fitted)), look));
    }
}

fn times(lock: &LockSheet, look: &Look, text: &mut String) {
    let Some(times) = &lock.times else { return };
    let hold = seconds(times.hold.time_s);
    let mut line = match times.hold.winner {
        HoldWinner::Station if times.hold.time_s != times.plan_s && times.plan_is_stated => {
            format!(
                "released for {hold}: the door station's own setting wins over the plan's {}",
                seconds(times.plan_s)
            )
        }
        HoldWinner::Station => format!("released for {hold}, the door station's own setting"),
        HoldWinner::Plan if times.plan_is_stated => format!("released for {hold}"),
        HoldWinner::Plan => format!("released for {hold} (not stated; default)"),
    };
    if lock.wiring.feed != LockFeed::DryContact {
        line.push_str(match times.energised {
            Energised::WhileReleased => "; energised while released",
            Energised::WhileShut => "; energised while shut",
        });
        line.push_str(&match times.duty_limit_s {
            Some(limit_s) => format!(", at most {} at a stretch", seconds(limit_s)),
            None => String::from(", rated for continuous duty"),
        });
    }
    text.push_str(&fact("Times", &line, look));
    if let Some(decay_s) = times.decay_s.filter(|decay_s| *decay_s > 0.0) {
        let line = format!(
            "the coil's current falls to drop-out {} after the contact opens; the armature's own time comes on top",
            seconds(decay_s)
        );
        text.push_str(&fact("", &line, look));
    }
    if let Some(delay_s) = lock.delayed_egress_s {
        text.push_str(&fact("", &format!("delayed egress of {}", seconds(delay_s)), look));
    }
}

fn inside(lock: &LockSheet, look: &Look, text: &mut String) {
    let stated = |value: Option<bool>, name: &str, default: &str| match value {
        Some(true) => name.to_string(),
        Some(false) => format!("no {name}"),
        None => format!("{name} not stated{default}"),
    };
    const NONE: &str = " (default: none)";
    let facts = [
        stated(lock.exit_button, "exit button", NONE),
        stated(lock.mechanical_escape, "mechanical means of escape", NONE),
        stated(lock.emergency_release, "emergency release", NONE),
        stated(lock.relay_on_secure_side, "relay on the secure side", ""),
        stated(lock.door_contact, "door contact", NONE),
    ];
    text.push_str(&fact("Inside", &facts.join("; "), look));
}

fn rules(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.escape_rules.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold("Rules to look at with the responsible person"));
    for rule in sheet.escape_rules {
        let summary = wording::capital(rule.summary.say(look.language));
        let line = format!("{}: {summary}", rule.source.say(look.language));
        text.push_str(&paragraph(&line, 2, look.width));
    }
    text
}
