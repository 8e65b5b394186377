//! Door sheets: what must be known at each door, fact by fact.

use super::column::column;
use super::door_words::{alarm_word, current_remark, light_feed_word, lit_word};
use super::earths::bar_words;
use crate::language::{Sentence, Word};
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use latchline_assess::Missing;
use latchline_assess::door::circuit::Unknown;
use latchline_assess::door::times::{Energised, HoldWinner};
use latchline_assess::door::{Caution, DoorSheet, LockSheet};
use latchline_finding::Unit;
use latchline_site::catalogue::{AccessoryKind, Feed, LightKind, LockKind, PowerLoss};
use latchline_site::model::{LockFeed, RelayContact, Suppression};
use latchline_wiring::lock::WiringElement;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::Door, 14).said_above(),
        column(locale, Word::About, 16),
        column(locale, Word::Item, 30),
        column(locale, Word::Value, 44),
        column(locale, Word::Remark, 40),
    ];
    let mut table = Table::new(Part::Doors, locale.word(Word::DoorsTitle), columns);
    for sheet in &subject.assessment.doors {
        let name = sheet.entrance.as_str();
        table.heading(if sheet.place.is_empty() {
            name.to_string()
        } else {
            format!("{name}  ({})", sheet.place.of(locale.language))
        });
        facts_of(subject, sheet, &mut table);
    }
    table
}

/// Every fact of one door, a row each.
pub(super) fn facts_of(subject: &Subject<'_>, sheet: &DoorSheet, table: &mut Table) {
    let mut facts = Facts { subject, table, door: sheet.entrance.as_str(), about: String::new() };
    door(&mut facts, sheet);
    for lock in &sheet.locks {
        facts.about = format!("{} {}", subject.locale.word(Word::Lock), lock.number);
        lock_facts(&mut facts, lock);
    }
}

/// Adds facts of one door.
struct Facts<'f, 'a> {
    subject: &'f Subject<'a>,
    table: &'f mut Table,
    door: &'f str,
    about: String,
}

impl Facts<'_, '_> {
    fn add(&mut self, item: Word, value: Cell, remark: impl Into<String>) {
        let item = self.subject.locale.cell(item);
        let cells = vec![Cell::text(self.door), Cell::text(&self.about), item, value, Cell::text(remark)];
        self.table.row(cells);
    }

    fn words(&mut self, item: Word, value: Word) {
        let value = self.subject.locale.cell(value);
        self.add(item, value, "");
    }

    fn stated(&mut self, item: Word, value: Option<bool>) {
        self.words(item, stated_word(value, Word::NotStated));
    }

    /// A fact that counts as none where the plan does not state it.
    fn stated_or_none(&mut self, item: Word, value: Option<bool>) {
        self.words(item, stated_word(value, Word::NotStatedNone));
    }
}

fn stated_word(value: Option<bool>, otherwise: Word) -> Word {
    match value {
        Some(true) => Word::Yes,
        Some(false) => Word::No,
        None => otherwise,
    }
}

fn door(facts: &mut Facts<'_, '_>, sheet: &DoorSheet) {
    let locale = facts.subject.locale;
    facts.about = locale.word(Word::Door).to_string();
    facts.add(Word::DoorStation, Cell::text(&sheet.station), "");
    facts.stated(Word::Outdoors, Some(sheet.outdoors));
    // Whether people get out is never taken for granted.
    let unstated = if sheet.is_judged_as_way_out { Word::NotStatedNotJudged } else { Word::NotStated };
    facts.words(Word::EscapeRoute, stated_word(sheet.escape_route, unstated));
    let on = sheet.escape_decided_on.as_deref().map(|date| locale.date(date));
    let decided: Vec<String> = sheet.escape_decided_by.iter().cloned().chain(on).collect();
    if !decided.is_empty() {
        facts.add(Word::DecidedBy, Cell::text(decided.join(", ")), "");
    } else if sheet.escape_route.is_some() {
        facts.words(Word::DecidedBy, Word::NobodyDecided);
    }
    facts.stated_or_none(Word::FireInterlock, sheet.fire_interlock);
    let range = &sheet.height_range;
    let least = locale.quantity_with(range.least_m, Unit::Metre, 2, Rounding::Nearest);
    let most = locale.quantity_with(range.most_m, Unit::Metre, 2, Rounding::Nearest);
    let published = locale.say(&Sentence::HeightRange {
        least: &locale.cell_text(&least, None),
        most: &locale.cell_text(&most, None),
        source: range.source.say(locale.language),
    });
    let height = match sheet.control_height_m {
        Some(height_m) => locale.quantity_with(height_m, Unit::Metre, 2, Rounding::Nearest),
        None => locale.cell(Word::NotStated),
    };
    facts.add(Word::ControlHeight, height, published);
    if let Some(also) = range.also {
        facts.add(Word::PanelAdvice, Cell::text(also.say(locale.language)), "");
    }
    for module in &sheet.modules.modules {
        let kind = locale.word(match module.kind {
            AccessoryKind::Keypad => Word::Keypad,
            AccessoryKind::Reader => Word::Reader,
            AccessoryKind::Buttons => Word::Buttons,
            AccessoryKind::Names => Word::NamesModule,
        });
        let current = locale.say(&Sentence::ModuleCurrent {
            day: &locale.in_words(module.current_a, Unit::Ampere),
            night: &locale.in_words(module.night_current_a, Unit::Ampere),
        });
        facts.add(
            Word::Module,
            Cell::text(format!("{}. {} ({kind})", module.position, module.model)),
            current,
        );
    }
    if let Some(bar) = facts.subject.wiring.door_bar(sheet.index) {
        let (room, joined) = bar_words(&locale, bar);
        facts.add(Word::EarthBar, Cell::text(room), joined);
    }
    facts.stated_or_none(Word::Heater, sheet.heater);
    fittings(facts, sheet);
    for rule in sheet.escape_rules {
        let summary = rule.summary.say(locale.language);
        facts.add(Word::RuleToLookAt, Cell::text(rule.source.say(locale.language)), summary);
    }
}

/// Lights, alarm inputs, and what all of it draws.
fn fittings(facts: &mut Facts<'_, '_>, sheet: &DoorSheet) {
    let locale = facts.subject.locale;
    for light in &sheet.lights {
        let kind = locale.word(match light.kind {
            LightKind::Buttons => Word::ButtonLight,
            LightKind::Names => Word::NameLight,
            LightKind::Porch => Word::PorchLight,
        });
        let (feed, lit) = (locale.word(light_feed_word(light.feed)), locale.word(lit_word(light.lit)));
        let rated = format!(
            "{}, {}",
            locale.in_words(light.rated_v, Unit::Volt),
            locale.in_words(light.current_a, Unit::Ampere)
        );
        let name = format!("{}. {} ({kind})", light.number, light.model);
        facts.add(Word::Light, Cell::text(name), format!("{feed}, {lit}; {rated}"));
    }
    for input in &sheet.alarm_inputs {
        let mut remarks = vec![locale.word(match input.contact {
            RelayContact::NormallyOpen => Word::RestsOpen,
            RelayContact::NormallyClosed => Word::RestsClosed,
        })];
        if input.end_of_line_resistor {
            remarks.push(locale.word(Word::EndOfLineResistor));
        }
        if input.cut_passes_unnoticed {
            remarks.push(locale.word(Word::CutNotNoticed));
        }
        if input.releases_locks {
            remarks.push(locale.word(Word::ReleasesLocks));
        }
        let mut remark = remarks.join("; ");
        if !input.tells.is_empty() {
            let names: Vec<&str> = input.tells.iter().map(|name| name.as_str()).collect();
            remark.push_str(&format!("; {}", locale.say(&Sentence::AlarmTells { told: &names.join(", ") })));
        }
        let name = format!("{}. {}", input.number, locale.word(alarm_word(input.kind)));
        facts.add(Word::AlarmInput, Cell::text(name), remark);
        if let Ok(cable) = &input.cable {
            let limit = input.limit_ohm.map(|limit| locale.in_words(limit, Unit::Ohm));
            let limit = limit.map(|limit| locale.say(&Sentence::AtMost { value: &limit }));
            let loop_ohm = locale.quantity(cable.adverse_ohm, Unit::Ohm, Rounding::Up);
            facts.add(Word::LoopResistance, loop_ohm, limit.unwrap_or_default());
        }
    }
    if let Some(load) = &sheet.load {
        let value = locale.say(&Sentence::ModuleCurrent {
            day: &locale.in_words(load.day_a(), Unit::Ampere),
            night: &locale.in_words(load.night_a(), Unit::Ampere),
        });
        let bus = locale.say(&Sentence::AtBusVoltage { value: &locale.in_words(load.bus_v, Unit::Volt) });
        facts.add(Word::StandbyLoad, Cell::text(value), bus);
    }
}

fn lock_facts(facts: &mut Facts<'_, '_>, lock: &LockSheet) {
    let locale = facts.subject.locale;
    facts.add(Word::Model, Cell::text(&lock.model), lock.title.of(locale.language));
    facts.words(
        Word::Kind,
        match lock.kind {
            LockKind::Strike => Word::Strike,
            LockKind::Magnet => Word::Magnet,
            LockKind::Motor => Word::MotorLock,
            LockKind::Gate => Word::GateDrive,
            LockKind::Lift => Word::LiftController,
        },
    );
    facts.words(
        Word::WithoutPower,
        match lock.power_loss {
            PowerLoss::Opens => Word::FailSafe,
            PowerLoss::StaysShut => Word::FailSecure,
        },
    );
    facts.words(
        Word::CurrentKind,
        match lock.current_kind {
            Feed::Dc => Word::DirectCurrent,
            Feed::Ac => Word::AlternatingCurrent,
            Feed::Either => Word::EitherCurrent,
        },
    );
    facts.words(
        Word::PowerFrom,
        match lock.wiring.feed {
            LockFeed::Station => Word::FeedStation,
            LockFeed::Bus => Word::FeedBus,
            LockFeed::OwnSupply => Word::FeedOwnSupply,
            LockFeed::DryContact => Word::FeedDryContact,
        },
    );
    if let Some((cable, length_m)) = &lock.cable {
        let length = locale.in_words(*length_m, Unit::Metre);
        facts.add(Word::Cable, Cell::text(format!("{cable}, {length}")), "");
    }
    match &lock.circuit {
        Ok(circuit) => {
            let volts = |value, rounding| locale.quantity(value, Unit::Volt, rounding);
            let range = locale.say(&Sentence::AllowedRange {
                least: &locale.in_words(circuit.least_allowed_v, Unit::Volt),
                most: &locale.in_words(circuit.most_allowed_v, Unit::Volt),
            });
            facts.add(Word::NominalVoltage, volts(circuit.nominal_v, Rounding::Nearest), "");
            facts.add(Word::LowestVoltage, volts(circuit.least_v, Rounding::Down), range.clone());
            facts.add(Word::HighestVoltage, volts(circuit.highest_v, Rounding::Up), range);
            facts.add(
                Word::NominalLoopResistance,
                locale.quantity(circuit.loop_ohm, Unit::Ohm, Rounding::Nearest),
                "",
            );
            facts.add(
                Word::Current,
                locale.quantity(circuit.adverse_current_a, Unit::Ampere, Rounding::Up),
                current_remark(&locale, circuit),
            );
        }
        Err(Unknown::NotNeeded) => facts.words(Word::Voltage, Word::VoltageNotNeeded),
        Err(Unknown::BusCollapses) => facts.words(Word::Voltage, Word::BusCollapses),
        Err(Unknown::NoFeed(missing)) => {
            let missing = locale.say(&Sentence::Needs { what: &missing.on_paper(locale.language) });
            facts.add(Word::Voltage, locale.cell(Word::NotJudged), missing);
        }
        Err(Unknown::Missing(missing)) => {
            let missing =
                locale.say(&Sentence::Needs { what: &Missing::list_on_paper(missing, locale.language) });
            facts.add(Word::Voltage, locale.cell(Word::NotJudged), missing);
        }
    }
    wiring(facts, lock);
    times(facts, lock);
    facts.stated_or_none(Word::ExitButtonPart, lock.exit_button);
    facts.stated_or_none(Word::MechanicalEscape, lock.mechanical_escape);
    facts.stated_or_none(Word::EmergencyReleasePart, lock.emergency_release);
    facts.stated(Word::RelayOnSecureSide, lock.relay_on_secure_side);
    facts.stated_or_none(Word::DoorContactPart, lock.door_contact);
    for caution in &lock.cautions {
        facts.words(Word::Mind, caution_word(*caution));
    }
}

fn wiring(facts: &mut Facts<'_, '_>, lock: &LockSheet) {
    let locale = facts.subject.locale;
    let chain: Vec<&str> = lock
        .wiring
        .series
        .iter()
        .map(|element| locale.word(element_word(*element, lock.wiring.is_ac)))
        .collect();
    facts.add(Word::WiringInSeries, Cell::text(chain.join(" → ")), "");
    if let Some(contact) = lock.wiring.coil_contact {
        facts.words(
            Word::CoilOfRelayBetween,
            match contact {
                RelayContact::NormallyClosed => Word::WhileShut,
                RelayContact::NormallyOpen => Word::WhileReleased,
            },
        );
    }
    for element in &lock.wiring.across_contact {
        facts.words(Word::AcrossContact, element_word(*element, lock.wiring.is_ac));
    }
    if lock.wiring.feed != LockFeed::DryContact {
        let word = |contact| match contact {
            RelayContact::NormallyOpen => Word::NormallyOpen,
            RelayContact::NormallyClosed => Word::NormallyClosed,
        };
        let remark = if lock.wiring.contact == lock.wiring.required_contact {
            String::new()
        } else {
            locale.say(&Sentence::ContactNeeded { contact: locale.word(word(lock.wiring.required_contact)) })
        };
        facts.add(Word::RelayContactItem, locale.cell(word(lock.wiring.contact)), remark);
    }
    if let Some(fitted) = lock.wiring.across_lock {
        facts.words(
            Word::AcrossLock,
            match fitted {
                Suppression::None => Word::Nothing,
                Suppression::Diode => Word::DiodePart,
                Suppression::Clamp => Word::ClampPart,
                Suppression::Varistor => Word::VaristorPart,
            },
        );
    }
}

fn times(facts: &mut Facts<'_, '_>, lock: &LockSheet) {
    let locale = facts.subject.locale;
    let seconds = |value| locale.quantity(value, Unit::Second, Rounding::Nearest);
    if let Some(times) = &lock.times {
        let winner = match times.hold.winner {
            HoldWinner::Station => Word::SetInStation,
            HoldWinner::Plan if times.plan_is_stated => Word::SetAsPlanned,
            HoldWinner::Plan => Word::NotStatedDefault,
        };
        facts.add(Word::HoldTime, seconds(times.hold.time_s), locale.word(winner));
        if lock.wiring.feed != LockFeed::DryContact {
            let energised = match times.energised {
                Energised::WhileReleased => Word::WhileReleased,
                Energised::WhileShut => Word::WhileShut,
            };
            let duty = match times.duty_limit_s {
                Some(limit_s) => {
                    locale.say(&Sentence::AtMostAtAStretch { time: &locale.in_words(limit_s, Unit::Second) })
                }
                None => locale.word(Word::ContinuousDuty).to_string(),
            };
            facts.add(Word::Energised, locale.cell(energised), duty);
        }
    }
    if let Some(delay_s) = lock.delayed_egress_s {
        facts.add(Word::DelayedEgress, seconds(delay_s), "");
    }
}

fn element_word(element: WiringElement, is_ac: bool) -> Word {
    match element {
        WiringElement::FeedOut | WiringElement::FeedReturn if is_ac => Word::FeedAlternating,
        WiringElement::FeedOut => Word::FeedPlus,
        WiringElement::FeedReturn => Word::FeedMinus,
        WiringElement::RelayNormallyOpen => Word::RelayNormallyOpen,
        WiringElement::RelayNormallyClosed => Word::RelayNormallyClosed,
        WiringElement::RelayBetween => Word::RelayBetween,
        WiringElement::ExitButtonNormallyOpen => Word::ExitButtonNormallyOpen,
        WiringElement::ExitButtonNormallyClosed => Word::ExitButtonNormallyClosed,
        WiringElement::EmergencyRelease => Word::EmergencyReleaseClosed,
        WiringElement::FireInterlock => Word::FireContactClosed,
        WiringElement::Lock => Word::Lock,
        WiringElement::DriveInput => Word::DriveInput,
    }
}

pub(super) fn caution_word(caution: Caution) -> Word {
    match caution {
        Caution::IsolateAndProveDead => Word::CautionIsolate,
        Caution::KeepApartFromMains => Word::CautionApart,
        Caution::ResponsiblePersonDecides => Word::CautionEscape,
        Caution::WayOutWithoutBus => Word::CautionWayOut,
        Caution::RelayOnSecureSide => Word::CautionSecureSide,
        Caution::RelayInStationOutdoors => Word::CautionRelayOutdoors,
        Caution::DiodePolarity => Word::CautionDiode,
        Caution::OpensOnPowerFailure => Word::CautionOpens,
        Caution::DriveSafety => Word::CautionDrive,
        Caution::RestsOnAssumedValues => Word::CautionAssumed,
    }
}
