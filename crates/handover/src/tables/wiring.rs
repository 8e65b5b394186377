//! The wiring schedule: item by item, terminal by terminal, conductor by conductor.

use super::column::column;
use super::door_words::alarm_word;
use super::earths::{EARTH_COLOUR, assumed_note, earth_size, earthed_on, how_earthed};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Choice, Role, Table};
use latchline_assess::door::words::part_of as part_word;
use latchline_site::cables::CableOwner;
use latchline_site::catalogue::ColourCode;
use latchline_site::model::{LockPart, LockRelay, LockUse, RunStop, StationOwner, Suppression};
use latchline_wiring::colours::is_stated;
use latchline_wiring::item::reference_designation;
use latchline_wiring::lock::lock_wiring;
use latchline_wiring::{By, Item, Landing, Pole, ScreenEnd, StandsAt, Terminal, TerminalSet};
use std::borrow::Cow;
use std::collections::BTreeSet;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::Device, 16).with_role(Role::Names).said_above(),
        column(locale, Word::Terminal, 9).with_role(Role::Names),
        column(locale, Word::Leg, 5).with_role(Role::Names),
        column(locale, Word::CableEnd, 16).with_role(Role::Names),
        column(locale, Word::CableType, 14),
        column(locale, Word::Pair, 6),
        column(locale, Word::Colour, 8),
        column(locale, Word::GoesTo, 20),
        column(locale, Word::Remark, 30),
        column(locale, Word::PairUsed, 7),
        column(locale, Word::ColourUsed, 9),
        column(locale, Word::Done, 6),
    ];
    let mut table = Table::new(Part::Wiring, locale.word(Word::WiringTitle), columns);
    // A terminal is its device, the terminal and the leg.
    table.columns_of_one_thing = 3;
    table.note(locale.word(Word::ColourConvention));
    if let Some(cables) = stated_codes(subject) {
        table.note(locale.say(&Sentence::ColourCodes { cables: &cables }));
    }
    table.note(locale.word(Word::LegsConvention));
    table.note(locale.word(Word::ConnectorConvention));
    if let Some(note) = assumed_note(subject) {
        table.note(note);
    }
    if !subject.wiring.unstated.is_empty() {
        let cables = subject.wiring.unstated.len().to_string();
        table.note(locale.say(&Sentence::CablesNotStated { cables: &cables }));
    }
    for item in &subject.order {
        item_rows(subject, *item, &mut table);
    }
    // What stands in no device schedule: protectors, then door by door all that is fitted there.
    let is_in_order = |item: &Item| matches!(item, Item::Supply(_) | Item::Box(_) | Item::Station(_));
    let mut others: Vec<Item> = subject.wiring.items();
    others.retain(|item| !is_in_order(item));
    let entrance = |item: Item| match item.stands_at() {
        StandsAt::Entrance(index) => Some(index),
        _ => None,
    };
    others.sort_by_key(|item| (entrance(*item), *item));
    for item in others {
        item_rows(subject, item, &mut table);
    }
    table
}

/// The cables of which the catalogue states the code of colours, with that code by the name of its standard.
fn stated_codes(subject: &Subject<'_>) -> Option<String> {
    let laid: BTreeSet<&str> = subject.wiring.cables.iter().map(|cable| cable.laid.cable.as_str()).collect();
    let of_cable = |name: &str| {
        let cable = &subject.site.catalogue.cables[name];
        let code = cable.colour_code.as_ref().filter(|_| cable.colours.value.is_empty())?.value;
        let standard = match code {
            ColourCode::Hd308 => "HD 308 S2",
            ColourCode::Tia568 => "ANSI/TIA-568",
            ColourCode::Din47100 => "DIN 47100",
            ColourCode::Vde0815 => "DIN VDE 0815",
            ColourCode::Iec60708 => "IEC 60708",
            ColourCode::Numbered => "EN 50334",
        };
        Some(format!("{name}: {standard}"))
    };
    let named: Vec<String> = laid.into_iter().filter_map(of_cable).collect();
    (!named.is_empty()).then(|| named.join("; "))
}

fn item_rows(subject: &Subject<'_>, item: Item, table: &mut Table) {
    let place = subject.place_words(item);
    let head = format!(
        "{}  {}",
        reference_designation(subject.site, item, subject.locale.language),
        item_title(subject, item)
    );
    table.heading(if place.is_empty() { head } else { format!("{head}  ({place})") });
    rows_of_item(subject, item).into_iter().for_each(|cells| table.row(cells));
}

/// The rows of one item: its terminals, what lands on each, where that leads.
pub fn rows_of_item(subject: &Subject<'_>, item: Item) -> Vec<Vec<Cell>> {
    let mut rows = Vec::new();
    let (name, language) = (subject.name(item), subject.locale.language);
    for (terminal, landings) in subject.wiring.of_item(item) {
        let start = || {
            let mark =
                if terminal.set == TerminalSet::Ways { String::new() } else { terminal.set.mark(language) };
            vec![Cell::text(&name), Cell::text(mark), Cell::text(terminal.pole.mark())]
        };
        if let Some(end) = subject.wiring.screens.get(&terminal) {
            let mut cells = start();
            cells.extend(screen_cells(subject, terminal, landings, *end));
            rows.push(cells);
            continue;
        }
        if landings.is_empty() {
            let mut cells = start();
            cells.resize(8, Cell::Empty);
            cells.extend([why_free(subject, terminal), Cell::Empty, Cell::Empty, Cell::Tick]);
            rows.push(cells);
        }
        for landing in landings {
            let mut cells = start();
            cells.extend(landing_cells(subject, terminal, landing));
            let [pair, colour] = as_built(subject, landing);
            let remark = Cell::text(remark(subject, terminal, landing, landings));
            cells.extend([remark, pair, colour, Cell::Tick]);
            rows.push(cells);
        }
    }
    rows
}

/// The designation of a cable, with which of several side by side it is.
fn designation(subject: &Subject<'_>, cable: usize, piece: u32) -> String {
    let cable = &subject.wiring.cables[cable];
    match cable.laid.side_by_side {
        1 => cable.designation.clone(),
        _ => format!("{} #{piece}", cable.designation),
    }
}

/// Cable, its type, pair, colour and the other end.
fn landing_cells(subject: &Subject<'_>, terminal: Terminal, landing: &Landing) -> Vec<Cell> {
    let locale = &subject.locale;
    let other = match landing.other {
        Some(other) => Cell::text(other.name(subject.site, locale.language)),
        None => locale.cell(Word::OutsideThePlan),
    };
    let mut cells = match &landing.by {
        By::Conductor { cable, piece, conductor } => {
            let laid = &subject.wiring.cables[*cable].laid;
            // Existing cable has the colours that it has: what its code would have stands in brackets, where the catalogue states one.
            let colour = match (laid.is_existing, code_of_existing(subject, *cable)) {
                (false, _) => Cell::text(conductor.colour),
                (true, true) if !conductor.colour.is_empty() => Cell::text(format!("({})", conductor.colour)),
                (true, _) => Cell::Choice(Choice::Colour),
            };
            vec![
                Cell::text(designation(subject, *cable, *piece)),
                Cell::text(&laid.cable),
                Cell::Count(u64::from(conductor.pair)),
                colour,
            ]
        }
        By::Unstated { cable } => {
            let name = &subject.wiring.unstated[*cable].designation;
            vec![Cell::text(name), Cell::WriteIn, Cell::Empty, Cell::Choice(Choice::Colour)]
        }
        By::Screen { cable, piece } => {
            let laid = &subject.wiring.cables[*cable].laid;
            let name = designation(subject, *cable, *piece);
            vec![Cell::text(name), Cell::text(&laid.cable), Cell::Empty, Cell::Empty]
        }
        By::Link => vec![locale.cell(Word::ShortWire), Cell::Empty, Cell::Empty, Cell::Empty],
        By::OwnLead => vec![locale.cell(Word::OwnLead), Cell::Empty, Cell::Empty, Cell::Empty],
        By::EarthConductor => {
            let size = earth_size(subject, terminal.item);
            vec![locale.cell(Word::EarthConductor), Cell::text(size), Cell::Empty, Cell::text(EARTH_COLOUR)]
        }
    };
    let other = match landing.by {
        By::EarthConductor => Cell::text(earthed_on(subject, terminal)),
        _ => other,
    };
    cells.push(other);
    cells
}

fn screen_cells(
    subject: &Subject<'_>,
    terminal: Terminal,
    landings: &[Landing],
    end: ScreenEnd,
) -> Vec<Cell> {
    let of_cable = landings.iter().find(|landing| matches!(landing.by, By::Screen { .. }));
    let mut cells =
        of_cable.map_or(vec![Cell::Empty; 5], |landing| landing_cells(subject, terminal, landing));
    let word = match end {
        ScreenEnd::Earthed => Word::ScreenEarthed,
        ScreenEnd::JoinedOn => Word::ScreenJoinedOn,
        ScreenEnd::Insulated => Word::ScreenInsulated,
    };
    let mut remark = subject.locale.word(word).to_string();
    if end == ScreenEnd::Earthed {
        remark = format!("{remark}; → {}", earthed_on(subject, terminal));
    }
    cells.extend([Cell::text(remark), Cell::Empty, Cell::Empty, Cell::Tick]);
    cells
}

/// Room for the pair and the colour that were used, where the plan names others; what is not known yet is written where it would stand.
fn as_built(subject: &Subject<'_>, landing: &Landing) -> [Cell; 2] {
    let By::Conductor { cable, .. } = landing.by else { return [Cell::Empty, Cell::Empty] };
    let laid = &subject.wiring.cables[cable].laid;
    let pairs = laid.side_by_side * subject.site.catalogue.cables[&laid.cable].pairs.value;
    let pair = if pairs > 1 { Cell::WriteIn } else { Cell::Empty };
    let colour = match laid.is_existing && !code_of_existing(subject, cable) {
        true => Cell::Empty,
        false => Cell::Choice(Choice::Colour),
    };
    [pair, colour]
}

/// Whether a cable is in the walls already and the catalogue states the colours that its kind has.
fn code_of_existing(subject: &Subject<'_>, cable: usize) -> bool {
    let laid = &subject.wiring.cables[cable].laid;
    laid.is_existing && is_stated(&subject.site.catalogue.cables[&laid.cable])
}

fn remark(subject: &Subject<'_>, terminal: Terminal, landing: &Landing, all: &[Landing]) -> String {
    let locale = &subject.locale;
    let mut remarks = Vec::new();
    if let By::EarthConductor = landing.by {
        remarks.push(how_earthed(subject, terminal.item).to_string());
    }
    if let Some(words) = of_relay(subject, terminal) {
        remarks.push(words.to_string());
    }
    if let By::Unstated { .. } = landing.by {
        remarks.push(locale.word(Word::CableNotStated).to_string());
    }
    if let By::Conductor { cable, .. } = landing.by {
        let found = match code_of_existing(subject, cable) {
            true => Word::ExistingColoursOfCode,
            false => Word::ExistingColours,
        };
        let cable = &subject.wiring.cables[cable];
        if cable.laid.is_existing {
            remarks.push(locale.word(found).to_string());
        }
        if let (CableOwner::Section { run, section }, Item::Station(station)) =
            (cable.laid.owner, terminal.item)
        {
            let run = &subject.site.runs[run];
            let is_last = section + 1 == run.sections.len();
            let ends_here = run.sections[section].to == RunStop::Station(station);
            if is_last && ends_here && run.terminator.as_ref().is_some_and(|terminator| terminator.value) {
                remarks.push(locale.word(Word::TerminatorHere).to_string());
            }
        }
    }
    if landing.by == By::OwnLead && all.first() == Some(landing) {
        remarks.extend(why_battery(subject, terminal));
    }
    let wires = all.iter().filter(|landing| landing.by != By::OwnLead).count();
    // Of several wires it is said once, at the first of the set.
    let mut set = subject.wiring.of_item(terminal.item).filter(|(one, _)| one.set == terminal.set);
    let is_first = set.next().is_some_and(|(one, _)| one == terminal) && all.first() == Some(landing);
    if wires > 1 && is_first && terminal.set != TerminalSet::Ways {
        // A supply's output may be stated to take several runs.
        let is_stated = match terminal.item {
            Item::Supply(supply) => {
                let model = subject.site.supply_model(&subject.site.supplies[supply]);
                model.runs_per_output.value as usize >= wires
            }
            _ => false,
        };
        let wires = &wires.to_string();
        remarks.push(locale.say(&match is_stated {
            true => Sentence::SeveralAsStated { wires },
            false => Sentence::SeveralInOneTerminal { wires },
        }));
    }
    remarks.join("; ")
}

/// What is to be minded at the coil of a relay in between, and where a relay on the secure side takes its command.
fn of_relay<'s>(subject: &Subject<'s>, terminal: Terminal) -> Option<&'s str> {
    let word = match (terminal.item, terminal.set, terminal.pole) {
        (_, TerminalSet::RelayCommand(_) | TerminalSet::Command, Pole::One) => Word::CommandOfRelay,
        (Item::Part { entrance, lock, .. }, TerminalSet::Coil, Pole::CoilOne) => {
            let entry = &subject.site.entrances[entrance];
            let is_ac = lock_wiring(subject.site, entry, &entry.locks[lock]).is_ac;
            (!is_ac).then_some(Word::CoilNeedsSuppressor)?
        }
        _ => return None,
    };
    Some(subject.locale.word(word))
}

/// What else is to be minded at a battery's terminals at its supply.
fn why_battery(subject: &Subject<'_>, terminal: Terminal) -> Option<String> {
    let (Item::Supply(supply), TerminalSet::Battery) = (terminal.item, terminal.set) else { return None };
    parallel_batteries(subject, supply)
}

/// Why nothing lands on a terminal.
fn why_free(subject: &Subject<'_>, terminal: Terminal) -> Cell {
    let locale = &subject.locale;
    let locks = match terminal.item {
        Item::Station(station) => match subject.site.stations[station].owner {
            StationOwner::Entrance(entrance) => subject.site.entrances[entrance].locks.as_slice(),
            _ => &[],
        },
        _ => &[],
    };
    let lock = |number: u32| locks.get(number as usize - 1);
    match (terminal.item, terminal.set) {
        (Item::Station(_), TerminalSet::Out) => locale.cell(Word::EndOfChain),
        (Item::Station(_) | Item::Box(_), TerminalSet::In | TerminalSet::Input) => {
            locale.cell(Word::NothingLeadsHere)
        }
        (_, TerminalSet::LockOutput(number)) if lock(number).is_some() => locale.cell(Word::LockFedElsewhere),
        (_, TerminalSet::Relay(number)) => locale.cell(match lock(number).map(LockUse::relay) {
            Some(LockRelay::OnSecureSide) => Word::ContactLeftFree,
            Some(LockRelay::InStation | LockRelay::Between) => Word::NotUsedByLock,
            None => Word::Free,
        }),
        (Item::Part { part: LockPart::Relay, .. }, TerminalSet::Contact) => locale.cell(Word::NotUsedByLock),
        (Item::Part { .. }, TerminalSet::Contact) => locale.cell(Word::BreaksNothing),
        (_, TerminalSet::Mains) => locale.cell(Word::MainsByElectrician),
        (_, TerminalSet::Modules | TerminalSet::ModuleOut) => locale.cell(Word::NoFurtherModule),
        (_, TerminalSet::Port(port)) => {
            Cell::text(locale.say(&Sentence::FreePort { port: &port.to_string() }))
        }
        _ => locale.cell(Word::Free),
    }
}

/// What is said of several batteries at a supply; `None` of one.
pub(super) fn parallel_batteries(subject: &Subject<'_>, supply: usize) -> Option<String> {
    let (site, locale) = (subject.site, &subject.locale);
    let supply = &site.supplies[supply];
    let battery = site.supply_model(supply).battery.as_ref()?;
    let count = supply.batteries.value as usize;
    let voltage = format!("{} V", locale.trimmed(battery.voltage.value.as_volts(), 2));
    (count > 1).then(|| locale.say(&Sentence::BatteriesInParallel { count, voltage: &voltage }))
}

/// What an item is, in words.
pub fn item_title<'a>(subject: &Subject<'a>, item: Item) -> Cow<'a, str> {
    let (site, locale) = (subject.site, &subject.locale);
    let entrance = |index: usize| &site.entrances[index];
    let title = match item {
        Item::Supply(index) => site.supply_model(&site.supplies[index]).head.title.of(locale.language),
        Item::Box(index) => site.box_model(&site.boxes[index]).head.title.of(locale.language),
        Item::Station(index) => site.station_model(&site.stations[index]).head.title.of(locale.language),
        Item::Lock { entrance: at, lock } => {
            site.lock(&entrance(at).locks[lock]).head.title.of(locale.language)
        }
        Item::Light { entrance: at, light } => {
            site.light(&entrance(at).lights[light]).head.title.of(locale.language)
        }
        Item::Module { entrance: at, module } => {
            site.accessory(&entrance(at).accessories[module]).head.title.of(locale.language)
        }
        Item::Part { entrance: at, lock, part } => {
            return part_word(part, entrance(at).locks[lock].relay()).say(locale.language).into();
        }
        Item::LightSupply { .. } => locale.word(Word::LightFromOwnSupply),
        Item::EndOfLine { .. } => locale.word(Word::EndOfLineResistor),
        Item::AlarmContact { entrance: at, input } => {
            locale.word(alarm_word(entrance(at).alarm_inputs[input].kind.value))
        }
        Item::Suppressor { entrance: at, lock } => {
            let fitted = entrance(at).locks[lock].suppression.as_ref().map(|stated| stated.value);
            locale.word(match fitted {
                Some(Suppression::Clamp) => Word::ClampPart,
                Some(Suppression::Varistor) => Word::VaristorPart,
                Some(Suppression::Diode) => Word::DiodePart,
                Some(Suppression::None) | None => Word::Nothing,
            })
        }
        Item::Protector(_) => locale.word(Word::SurgeProtectorItem),
        Item::Battery { .. } => locale.word(Word::BatteryWithFuse),
        Item::Joint { .. } => {
            let ways = subject.wiring.of_item(item).map(|(_, landings)| landings.len()).sum::<usize>();
            return locale.say(&Sentence::Connector { ways: &ways.to_string() }).into();
        }
    };
    title.into()
}
