//! Orthogonal routing of sections in channels.
//!
//! Below every row of cards lies a channel of horizontal lanes; left of the cards of every column
//! lies a riser of vertical lanes. A section leaves its card downward, follows a lane of its row's
//! channel, changes rows in a riser and comes up to its other card, so it meets no card and no
//! lettering on one. Two sections never lie on each other: lanes are given out first fit, by length
//! (the channel routing of Hashimoto and Stevens, "Wire routing by optimizing channel assignment
//! within large apertures", 1971, without its upper row of terminals, so no vertical constraints arise).
//! Neighbours on a chain are joined side to side.

use super::arrange::{Arrangement, CARD_GAP_MM, COLUMN_PAD_MM};
use super::card::CardIndex;
use latchline_finding::Language;
use latchline_scene::font::{LEAST_MM, text_width_mm};
use latchline_site::model::{RunStart, RunStop, Site};
use latchline_wiring::runs::device_terminals;
use std::collections::BTreeMap;

/// Distance of two lanes of a channel: a line of lettering fits between them.
pub(super) const LANE_MM: f64 = 4.2;
/// Least distance of two terminals of a card: a run's designation stands upright between their lines.
const LEAST_PITCH_MM: f64 = 4.4;
/// Between the marks of two terminals.
const MARK_GAP_MM: f64 = 1.4;
/// Distance of two lanes of a riser: an upright line of lettering fits between them.
const RISER_LANE_MM: f64 = 3.6;
const RISER_PAD_MM: f64 = 3.0;
const LEAST_RISER_MM: f64 = 8.0;
/// Width of a riser before its lanes are known; only the order along x counts then.
const PROVISIONAL_RISER_MM: f64 = 20.0;

/// Which terminal of a card an end of a section sits on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum CardTerminal {
    /// The input of a box.
    Input,
    /// The signal link of an isolating box.
    Link,
    /// A port of a box.
    Port(u32),
    /// Another end, by the number of the net.
    Loose(usize),
}

/// A section of a run.
#[derive(Debug, Clone)]
pub(super) struct Net {
    pub(super) run: usize,
    /// Whether the run begins with it.
    pub(super) is_first: bool,
    pub(super) from: (usize, CardTerminal),
    pub(super) to: (usize, CardTerminal),
    /// What is printed on the device at both ends.
    pub(super) marks: [String; 2],
    pub(super) way: Way,
}

/// An end of a section as it is drawn on its card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct CardEnd {
    pub(super) place: EndPlace,
    /// What is printed on the device.
    pub(super) mark: String,
}

/// Where a line meets a card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum EndPlace {
    Below(CardTerminal),
    Left,
    Right,
}

/// How a section goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Way {
    /// Side to side between neighbours; true if the first card stands left.
    Beside(bool),
    /// In the channel of one row.
    Row { row: usize, lane: usize },
    /// Through the riser of a column.
    Riser { column: usize, lane: usize, from: (usize, usize), to: (usize, usize) },
}

/// The lanes of every net and the order of the terminals.
#[derive(Debug, Clone)]
pub(super) struct Routing {
    pub(super) nets: Vec<Net>,
    /// Lanes of the riser of each column.
    pub(super) riser_lanes: Vec<usize>,
    /// Terminals of each card from left to right.
    pub(super) terminals: Vec<Vec<CardTerminal>>,
    /// What meets each card, and where.
    pub(super) ends: Vec<Vec<CardEnd>>,
}

/// Sections as nets, before they are routed.
pub(super) fn nets(site: &Site, language: Language) -> Vec<Net> {
    let index = CardIndex::new(site);
    let mut nets = Vec::new();
    for ((number, run), terminals) in site.runs.iter().enumerate().zip(device_terminals(site)) {
        let mut before = (
            index.start(run.from),
            match run.from {
                RunStart::Port { port, .. } => CardTerminal::Port(port),
                _ => CardTerminal::Loose(nets.len()),
            },
        );
        for ((section, stop), (near, far)) in run.sections.iter().enumerate().zip(terminals) {
            let terminal = match stop.to {
                RunStop::BoxInput(_) => CardTerminal::Input,
                RunStop::BoxLink(_) => CardTerminal::Link,
                RunStop::Station(_) => CardTerminal::Loose(nets.len()),
            };
            let to = (index.stop(stop.to), terminal);
            let way = Way::Row { row: 0, lane: 0 };
            let marks = [near.1.mark(language), far.1.mark(language)];
            nets.push(Net { run: number, is_first: section == 0, from: before, to, marks, way });
            // A run that goes on from a box leaves it by its input terminals.
            let next = if matches!(stop.to, RunStop::Station(_)) {
                CardTerminal::Loose(nets.len())
            } else {
                terminal
            };
            before = (to.0, next);
        }
    }
    nets
}

/// Which nets use the underside of each card: the terminals of each card, unordered.
pub(super) fn terminals(nets: &[Net], cards: usize) -> Vec<Vec<CardTerminal>> {
    let mut terminals: Vec<Vec<CardTerminal>> = vec![Vec::new(); cards];
    for net in nets.iter().filter(|net| !matches!(net.way, Way::Beside(_))) {
        for (card, terminal) in [net.from, net.to] {
            if !terminals[card].contains(&terminal) {
                terminals[card].push(terminal);
            }
        }
    }
    terminals
}

/// What meets each card, and where.
fn ends(nets: &[Net], cards: usize) -> Vec<Vec<CardEnd>> {
    let mut ends: Vec<Vec<CardEnd>> = vec![Vec::new(); cards];
    for net in nets {
        let places = match net.way {
            Way::Beside(true) => [EndPlace::Right, EndPlace::Left],
            Way::Beside(false) => [EndPlace::Left, EndPlace::Right],
            _ => [EndPlace::Below(net.from.1), EndPlace::Below(net.to.1)],
        };
        for ((card, place), mark) in [net.from.0, net.to.0].into_iter().zip(places).zip(&net.marks) {
            let end = CardEnd { place, mark: mark.clone() };
            if !ends[card].contains(&end) {
                ends[card].push(end);
            }
        }
    }
    ends
}

/// The room that each terminal of each card needs, so that the marks stand apart.
pub(super) fn pitches(nets: &[Net], cards: usize) -> Vec<f64> {
    let mut pitches = vec![LEAST_PITCH_MM; cards];
    for net in nets {
        for (card, mark) in [net.from.0, net.to.0].into_iter().zip(&net.marks) {
            let own = text_width_mm(mark, LEAST_MM, false) + MARK_GAP_MM;
            pitches[card] = pitches[card].max(own);
        }
    }
    pitches
}

/// Left edges of the cards, columns and risers.
#[derive(Debug, Clone)]
pub(super) struct AlongX {
    pub(super) card: Vec<f64>,
    pub(super) column: Vec<f64>,
    pub(super) column_width: Vec<f64>,
    pub(super) riser: Vec<f64>,
    pub(super) width: f64,
}

/// Lays columns out from left to right. `gutters` says how much room each column has for the names
/// of its floors, `gaps` how much lies before it.
pub(super) fn along_x(
    arrangement: &Arrangement,
    widths: &[f64],
    riser_width: &[f64],
    gutters: &[f64],
    gaps: &[f64],
) -> AlongX {
    let columns = arrangement.columns.len();
    let mut result = AlongX {
        card: vec![0.0; widths.len()],
        column: Vec::with_capacity(columns),
        column_width: Vec::with_capacity(columns),
        riser: Vec::with_capacity(columns),
        width: 0.0,
    };
    let mut x = 0.0;
    let mut content = Vec::with_capacity(columns);
    for (number, column) in arrangement.columns.iter().enumerate() {
        x += gaps[number];
        result.column.push(x);
        result.riser.push(x + gutters[number]);
        content.push(x + gutters[number] + riser_width[number]);
        let width = gutters[number] + riser_width[number] + column.content_width + COLUMN_PAD_MM;
        result.column_width.push(width);
        x += width;
    }
    result.width = x;
    for row in &arrangement.rows {
        for (column, cards) in &row.cards {
            let mut x = content[*column];
            for card in cards {
                result.card[*card] = x;
                x += widths[*card] + CARD_GAP_MM;
            }
        }
    }
    result
}

/// Width of a riser with this many lanes.
pub(super) fn riser_width(lanes: usize) -> f64 {
    (2.0 * RISER_PAD_MM + lanes as f64 * RISER_LANE_MM).max(LEAST_RISER_MM)
}

/// x of a lane of a riser, from its left edge; lane 0 is next to the cards.
pub(super) fn riser_lane_x(lane: usize, lanes: usize) -> f64 {
    let width = riser_width(lanes);
    let pitch = (width - 2.0 * RISER_PAD_MM) / lanes.max(1) as f64;
    width - RISER_PAD_MM - (lane as f64 + 0.5) * pitch
}

/// x of a terminal from the left edge of its card.
pub(super) fn terminal_x(terminals: &[CardTerminal], terminal: CardTerminal, width: f64) -> f64 {
    let place = terminals.iter().position(|other| *other == terminal).unwrap_or(0);
    // Clear of the rounded corners.
    width * (place as f64 + 1.0) / (terminals.len() as f64 + 1.0)
}

/// Routes every net.
pub(super) fn route(arrangement: &Arrangement, mut nets: Vec<Net>, widths: &[f64]) -> Routing {
    let columns = arrangement.columns.len();
    mark_neighbours(arrangement, &mut nets);
    let mut gutters = vec![0.0; columns];
    gutters.iter_mut().zip(&arrangement.columns).for_each(|(gutter, column)| *gutter = column.gutter);
    let provisional =
        along_x(arrangement, widths, &vec![PROVISIONAL_RISER_MM; columns], &gutters, &vec![1.0; columns]);
    let riser_of = |from: usize, to: usize| riser_column(arrangement, from, to);
    let centre = |card: usize| provisional.card[card] + widths[card] / 2.0;
    let riser_centre = |column: usize| provisional.riser[column] + PROVISIONAL_RISER_MM / 2.0;
    // Terminals of stations and supplies in the order of where their nets go.
    let mut terminals = terminals(&nets, widths.len());
    for (card, list) in terminals.iter_mut().enumerate() {
        let goes_to = |terminal: &CardTerminal| {
            let CardTerminal::Loose(number) = terminal else { return 0.0 };
            // Both ends of net n on a station are numbered n; which end is here decides.
            let net = &nets[*number];
            let other = if net.from == (card, *terminal) { net.to.0 } else { net.from.0 };
            if arrangement.place[card].0 == arrangement.place[other].0 {
                centre(other)
            } else {
                riser_centre(riser_of(net.from.0, net.to.0))
            }
        };
        list.sort_by(|a, b| match (a, b) {
            (CardTerminal::Loose(_), CardTerminal::Loose(_)) => {
                goes_to(a).total_cmp(&goes_to(b)).then(a.cmp(b))
            }
            _ => a.cmp(b),
        });
    }
    let x_of = |(card, terminal): (usize, CardTerminal)| {
        provisional.card[card] + terminal_x(&terminals[card], terminal, widths[card])
    };
    // Horizontal pieces: row, interval, net, and whether it is the piece at the far end.
    struct Piece {
        row: usize,
        from: f64,
        to: f64,
        net: usize,
        far: bool,
    }
    let mut pieces = Vec::new();
    for (number, net) in nets.iter().enumerate() {
        if matches!(net.way, Way::Beside(_)) {
            continue;
        }
        let (a, b) = (x_of(net.from), x_of(net.to));
        let (row_a, row_b) = (arrangement.place[net.from.0].0, arrangement.place[net.to.0].0);
        if row_a == row_b {
            pieces.push(Piece { row: row_a, from: a.min(b), to: a.max(b), net: number, far: false });
        } else {
            let column = riser_of(net.from.0, net.to.0);
            let (left, right) = (provisional.riser[column], provisional.riser[column] + PROVISIONAL_RISER_MM);
            for (row, x, far) in [(row_a, a, false), (row_b, b, true)] {
                pieces.push(Piece { row, from: x.min(left), to: x.max(right), net: number, far });
            }
        }
    }
    pieces.sort_by(|a, b| {
        (a.row, a.to - a.from)
            .partial_cmp(&(b.row, b.to - b.from))
            .unwrap_or(std::cmp::Ordering::Equal)
            .then((a.net, a.far).cmp(&(b.net, b.far)))
    });
    let mut lanes: Vec<Vec<Vec<(f64, f64)>>> = vec![Vec::new(); arrangement.rows.len()];
    let mut lane_of: BTreeMap<(usize, bool), usize> = BTreeMap::new();
    for piece in &pieces {
        let lane = first_fit(&mut lanes[piece.row], piece.from, piece.to, 1.5);
        lane_of.insert((piece.net, piece.far), lane);
    }
    // Vertical pieces, in units of rows and lanes, which is their order along y.
    let mut verticals = Vec::new();
    for (number, net) in nets.iter_mut().enumerate() {
        if matches!(net.way, Way::Beside(_)) {
            continue;
        }
        let (row_a, row_b) = (arrangement.place[net.from.0].0, arrangement.place[net.to.0].0);
        let near = lane_of[&(number, false)];
        if row_a == row_b {
            net.way = Way::Row { row: row_a, lane: near };
        } else {
            let far = lane_of[&(number, true)];
            let column = riser_column(arrangement, net.from.0, net.to.0);
            net.way = Way::Riser { column, lane: 0, from: (row_a, near), to: (row_b, far) };
            let key = |row: usize, lane: usize| row as f64 * 1000.0 + lane as f64;
            let (a, b) = (key(row_a, near), key(row_b, far));
            verticals.push((column, a.min(b), a.max(b), number));
        }
    }
    verticals.sort_by(|a, b| {
        (a.0, a.2 - a.1)
            .partial_cmp(&(b.0, b.2 - b.1))
            .unwrap_or(std::cmp::Ordering::Equal)
            .then(a.3.cmp(&b.3))
    });
    let mut risers: Vec<Vec<Vec<(f64, f64)>>> = vec![Vec::new(); columns];
    for (column, from, to, number) in verticals {
        let given = first_fit(&mut risers[column], from, to, 0.5);
        if let Way::Riser { lane, .. } = &mut nets[number].way {
            *lane = given;
        }
    }
    let ends = ends(&nets, widths.len());
    Routing { nets, riser_lanes: risers.iter().map(Vec::len).collect(), terminals, ends }
}

/// The riser that a net between two cards of different rows takes: that of its far end, unless
/// that building does not reach the row where the net starts.
fn riser_column(arrangement: &Arrangement, from: usize, to: usize) -> usize {
    let (row, near) = arrangement.place[from];
    let far = arrangement.place[to].1;
    let (lowest, highest) = arrangement.columns[far].levels;
    if (lowest..=highest).contains(&arrangement.rows[row].level) { far } else { near }
}

/// The first lane in which the interval fits with this gap.
fn first_fit(lanes: &mut Vec<Vec<(f64, f64)>>, from: f64, to: f64, gap: f64) -> usize {
    let fits = |lane: &Vec<(f64, f64)>| lane.iter().all(|(a, b)| to + gap <= *a || *b + gap <= from);
    let lane = lanes.iter().position(fits).unwrap_or_else(|| {
        lanes.push(Vec::new());
        lanes.len() - 1
    });
    lanes[lane].push((from, to));
    lane
}

/// Sections between stations that stand next to each other go side to side.
fn mark_neighbours(arrangement: &Arrangement, nets: &mut [Net]) {
    let mut right_of: BTreeMap<usize, usize> = BTreeMap::new();
    for row in &arrangement.rows {
        for cards in row.cards.values() {
            right_of.extend(cards.windows(2).map(|pair| (pair[0], pair[1])));
        }
    }
    let mut taken: BTreeMap<(usize, usize), ()> = BTreeMap::new();
    // Where a run begins, its designation stands below the card.
    for net in nets.iter_mut().filter(|net| !net.is_first) {
        let stations = matches!((net.from.1, net.to.1), (CardTerminal::Loose(_), CardTerminal::Loose(_)));
        let (a, b) = (net.from.0, net.to.0);
        let way = if right_of.get(&a) == Some(&b) {
            Some(Way::Beside(true))
        } else if right_of.get(&b) == Some(&a) {
            Some(Way::Beside(false))
        } else {
            None
        };
        if let (true, Some(way)) = (stations, way)
            && taken.insert((a.min(b), a.max(b)), ()).is_none()
        {
            net.way = way;
        }
    }
}
