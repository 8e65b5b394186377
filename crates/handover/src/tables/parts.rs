//! The parts list: quantities from the bill, spares, prices for the office.

use super::column::column;
use super::earths::{bar_parts, part_title};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use latchline_cutting::CableCuts;
use latchline_finding::Units;
use latchline_site::bill::{Bill, BillKind, BillLine};
use latchline_wiring::Item;
use latchline_words::figures;
use std::collections::BTreeMap;

/// One spare for so many of a model, begun fifties counted, from this number on (common practice, no
/// source).
const SPARE_OF: f64 = 50.0;
/// Fewest of a model for which a spare is kept.
const SPARE_FROM: f64 = 10.0;

/// Spares of a line of the bill.
fn spares(line: &BillLine) -> f64 {
    match line.kind {
        BillKind::IndoorStation | BillKind::DoorStation if line.quantity >= SPARE_FROM => {
            (line.quantity / SPARE_OF).ceil()
        }
        _ => 0.0,
    }
}

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let shows_prices = subject.options.shows_prices();
    let mut columns = vec![
        column(locale, Word::Kind, 18),
        column(locale, Word::Model, 18),
        column(locale, Word::Title, 40),
        column(locale, Word::Needed, 11),
        column(locale, Word::Spares, 9),
        column(locale, Word::ToOrder, 11),
    ];
    if shows_prices {
        columns.push(column(locale, Word::UnitPrice, 11));
        let mut sum = column(locale, Word::LinePrice, 12);
        sum.is_summed = true;
        columns.push(sum);
    }
    columns.push(column(locale, Word::Remark, 36));
    let mut table = Table::new(Part::Parts, locale.word(Word::PartsTitle), columns);
    table.note(
        locale.say(&Sentence::SpareRule {
            from: &locale.number(SPARE_FROM, 0),
            of: &locale.number(SPARE_OF, 0),
        }),
    );
    if shows_prices {
        table.note(locale.say(&Sentence::PricesIn { currency: &subject.site.catalogue.currency }));
    }
    let bill = Bill::of(subject.site);
    let left_out: Vec<&str> =
        bill.lines.iter().filter_map(|line| line.price_left_out_in.as_deref()).collect();
    if let Some(theirs) = left_out.first().filter(|_| shows_prices) {
        let (parts, own) = (&left_out.len().to_string(), &*subject.site.catalogue.currency);
        table.note(locale.say(&Sentence::PricesLeftOut { parts, theirs, own }));
    }
    // Where nothing has a price there is no sum to tell.
    let is_priced = bill.lines.iter().any(|line| line.unit_price.is_some());
    if !is_priced {
        table.columns.iter_mut().for_each(|column| column.is_summed = false);
    }
    if shows_prices && is_priced {
        let plan = &figures::money(bill.material(), locale.language);
        table.note(locale.say(&Sentence::TotalHolds { plan, currency: &subject.site.catalogue.currency }));
    }
    let (small, lines): (Vec<BillLine>, Vec<BillLine>) =
        bill.lines.into_iter().partition(|line| line.kind == BillKind::Small);
    let unpriced = lines.iter().filter(|line| line.unit_price.is_none()).count();
    for line in &lines {
        let cut =
            subject.cut_list.iter().find(|cable| line.kind == BillKind::Cable && cable.cable == line.name);
        table.row(line_cells(subject, line, cut));
    }
    let of_bill = small.iter().map(|line| {
        let title = line.title.of(locale.language).to_string();
        (title, line.quantity.round().max(0.0) as u64)
    });
    let small: Vec<(String, u64)> = of_bill
        .chain(connectors(subject))
        .chain(earth_conductors(subject))
        .chain(bar_parts(subject))
        .chain(housings(subject))
        .collect();
    for (title, count) in &small {
        let count = || Cell::Count(*count);
        let mut cells = vec![
            locale.cell(Word::KindSmall),
            Cell::Empty,
            Cell::text(title),
            count(),
            Cell::count(0),
            count(),
        ];
        if shows_prices {
            cells.extend([Cell::Empty, Cell::Empty]);
        }
        cells.push(locale.cell(Word::NotInCatalogue));
        table.row(cells);
    }
    let small = small.len();
    if shows_prices && unpriced + small > 0 {
        table.note(locale.say(&Sentence::LinesWithoutPrice { parts: unpriced, small }));
    }
    table
}

fn line_cells(subject: &Subject<'_>, line: &BillLine, cut: Option<&CableCuts>) -> Vec<Cell> {
    let locale = &subject.locale;
    let kind = match line.kind {
        BillKind::Supply => Word::Supply,
        BillKind::Box => Word::BoxKind,
        BillKind::DoorStation => Word::DoorStation,
        BillKind::IndoorStation => Word::IndoorStation,
        BillKind::ManagementStation => Word::ManagementStation,
        BillKind::Accessory => Word::Accessory,
        BillKind::Lock => Word::Lock,
        BillKind::Light => Word::Light,
        BillKind::Cable => Word::Cable,
        BillKind::Small => Word::KindSmall,
    };
    let is_cable = line.kind == BillKind::Cable;
    let count = |value: f64| Cell::Count(value.round().max(0.0) as u64);
    let spares = spares(line);
    // A cable is needed as it is cut, with its tolerance and ends; what is left on the drums is the cut list's figure.
    let needed = cut.map_or(line.quantity, CableCuts::needed_m);
    let order = cut.map_or(line.quantity + spares, CableCuts::bought_m);
    let order_cell = if is_cable { locale.length_sold(order) } else { count(order) };
    let left = cut.map_or(0.0, CableCuts::waste_m);
    let mut cells = vec![
        locale.cell(kind),
        Cell::text(&line.name),
        Cell::text(line.title.of(locale.language)),
        if is_cable { locale.length_cut(needed) } else { count(needed) },
        if is_cable { locale.length_left(left) } else { count(spares) },
        order_cell.clone(),
    ];
    if subject.options.shows_prices() {
        let is_converted = is_cable && locale.units == Units::Us;
        let price = line.unit_price.map(|price| if is_converted { price.per_foot() } else { price });
        cells.push(price.map_or(Cell::Empty, Cell::Money));
        // Of an amount that is converted the product of what is shown would be another sum than in metres.
        let sum = match is_converted {
            true => line.unit_price.map(|price| Cell::Money(price.times(order))),
            false => price
                .zip(order_cell.number())
                .map(|(price, amount)| Cell::Product { columns: (5, 6), value: price.times(amount) }),
        };
        cells.push(sum.unwrap_or(Cell::Empty));
    }
    cells.push(if is_cable {
        let [net, cut, bought, left] = [
            locale.length_laid(line.quantity),
            locale.length_cut(needed),
            locale.length_sold(order),
            locale.length_left(left),
        ]
        .map(|length| locale.cell_text(&length, None));
        let amounts = Sentence::CableAmounts { net: &net, cut: &cut, bought: &bought, left: &left };
        let amounts = format!("{}; {}", locale.say(&amounts), locale.word(Word::OrderedInDrums));
        Cell::text(
            [article(subject, line), Some(amounts)].into_iter().flatten().collect::<Vec<_>>().join("; "),
        )
    } else {
        article(subject, line).map_or(Cell::Empty, Cell::text)
    });
    cells
}

/// The number under which a part is ordered, in words.
fn article(subject: &Subject<'_>, line: &BillLine) -> Option<String> {
    line.article.as_deref().map(|number| subject.locale.say(&Sentence::ArticleNumber { number }))
}

/// Enclosures and cable glands that the catalogue names for what is mounted, by what they are called. They have no price of their own and are
/// in no bill.
fn housings(subject: &Subject<'_>) -> BTreeMap<String, u64> {
    let site = subject.site;
    let supplies = site.supplies.iter().map(|supply| &site.supply_model(supply).head);
    let boxes = site.boxes.iter().map(|item| &site.box_model(item).head);
    let stations = site.stations.iter().map(|station| &site.station_model(station).head);
    let mut housings: BTreeMap<String, u64> = BTreeMap::new();
    for head in supplies.chain(boxes).chain(stations) {
        let part = head.name.as_str();
        let enclosure = head.enclosure.as_deref().map(|name| Sentence::EnclosureOf { name, part });
        let glands = head.glands.as_deref().map(|name| Sentence::GlandsOf { name, part });
        for said in [enclosure, glands].into_iter().flatten() {
            *housings.entry(subject.locale.say(&said)).or_default() += 1;
        }
    }
    housings
}

/// Connectors in the circuits of locks, by what they are called. How many there are is known only once every conductor has its terminal, so
/// they are in no bill.
fn connectors(subject: &Subject<'_>) -> BTreeMap<String, u64> {
    let mut connectors: BTreeMap<String, u64> = BTreeMap::new();
    for (terminal, landings) in &subject.wiring.terminals {
        if let Item::Joint { .. } = terminal.item {
            let ways = landings.len().to_string();
            *connectors.entry(subject.locale.say(&Sentence::Connector { ways: &ways })).or_default() += 1;
        }
    }
    connectors
}

/// Earth conductors of surge protectors, by what they are called: a piece for each, since the plan states no length.
fn earth_conductors(subject: &Subject<'_>) -> BTreeMap<String, u64> {
    let mut conductors: BTreeMap<String, u64> = BTreeMap::new();
    for item in subject.wiring.items().into_iter().filter(|item| matches!(item, Item::Protector(_))) {
        *conductors.entry(part_title(subject, item)).or_default() += 1;
    }
    conductors
}
