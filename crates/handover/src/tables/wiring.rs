//! The wiring schedule: item by item, terminal by terminal, conductor by conductor.

use super::column::column;
use super::door_words::alarm_word;
use super::earths::{EARTH_COLOUR, assumed_note, earth_size, earthed_on};
use super::terminal_remarks::{Length, code_of_existing, of_landing, of_screen, why_free};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Choice, Role, Table};
use latchline_assess::door::words::part_of as part_word;
use latchline_site::catalogue::ColourCode;
use latchline_site::model::Suppression;
use latchline_wiring::item::reference_designation;
use latchline_wiring::{By, Item, Landing, ScreenEnd, StandsAt, Terminal, TerminalSet};
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
    rows_of_item(subject, item, Length::Whole).into_iter().for_each(|cells| table.row(cells));
}

/// The rows of one item: its terminals, what lands on each, where that leads, with as much said as there is room for.
pub fn rows_of_item(subject: &Subject<'_>, item: Item, length: Length) -> Vec<Vec<Cell>> {
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
            cells.extend(screen_cells(subject, terminal, landings, (*end, length)));
            rows.push(cells);
            continue;
        }
        if landings.is_empty() {
            let mut cells = start();
            cells.resize(8, Cell::Empty);
            let why = Cell::text(why_free(subject, terminal, length));
            cells.extend([why, Cell::Empty, Cell::Empty, Cell::Tick]);
            rows.push(cells);
        }
        for landing in landings {
            let mut cells = start();
            cells.extend(landing_cells(subject, terminal, landing));
            let [pair, colour] = as_built(subject, landing);
            let remark = Cell::text(of_landing(subject, (terminal, landing), landings, length));
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
    (end, length): (ScreenEnd, Length),
) -> Vec<Cell> {
    let of_cable = landings.iter().find(|landing| matches!(landing.by, By::Screen { .. }));
    let mut cells =
        of_cable.map_or(vec![Cell::Empty; 5], |landing| landing_cells(subject, terminal, landing));
    let mut remark = of_screen(subject, end, length);
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
