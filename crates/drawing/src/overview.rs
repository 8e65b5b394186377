//! The whole system as blocks on one sheet, before the sheets of its floors: a frame for each building with its supplies, what
//! hangs on them, doors and floors, and below them the links from building to building.
//!
//! Where not all boxes have room, even on the larger sheet, those of a building are told together. Only a site with more buildings than a
//! sheet holds has more sheets. What leaves room is enlarged.

mod feeders;

use crate::frame::Frame;
use crate::language::{Lettering, Phrase, Word};
use crate::sheet::{SheetOptions, SheetSize, TitleBlock, fitted, verdict_note};
use feeders::{Feeder, feeder, hanging};
use latchline_assess::{Assessment, SourceSummary, StageSource};
use latchline_scene::font::text_width_mm;
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Group, Layer, Pen, Scene, Stroke, Text};
use latchline_site::model::{EntranceRole, Place, RunStart, RunStop, Site};
use latchline_site::outdoors::leaves_its_building;
use latchline_site::protectors;

/// Least width of the frame of a building.
const LEAST_FRAME_MM: f64 = 82.0;
const GAP_MM: f64 = 5.0;
const HEAD_MM: f64 = 8.0;
const ROW_MM: f64 = 5.2;
const INSET_MM: f64 = 2.5;
const INDENT_MM: f64 = 5.0;
/// Capitals of 1.9 mm (ISO 3098 asks for 1.8 mm).
const TEXT_MM: f64 = 2.8;
const HEAD_TEXT_MM: f64 = 3.6;
/// From the edge of a row to its name, and from the name to what is said of it.
const NAME_INSET_MM: f64 = 1.2;
const BESIDE_MM: f64 = 2.4;
/// Room of a link from building to building.
const LINK_MM: f64 = 11.0;
const LEAST_LINK_MM: f64 = 165.0;
/// How much a single sheet is enlarged at most, and by which steps less.
const MOST_ENLARGED: f64 = 1.8;
const ENLARGED_STEP: f64 = 0.1;

/// A row of a building's frame.
struct Row {
    /// How far it is fed from the one above: 0 of a supply, and of what hangs on nothing that is shown here.
    indent: usize,
    /// What it is called; bold.
    name: String,
    /// What is said of it.
    words: String,
    /// Whether a limit is broken there.
    is_trouble: bool,
    /// Whether it is a block: a device, not a sentence.
    is_block: bool,
}

/// The frame of a building.
struct Block {
    title: String,
    rows: Vec<Row>,
}

impl Block {
    fn height_mm(&self) -> f64 {
        HEAD_MM + self.rows.len() as f64 * ROW_MM + INSET_MM
    }

    /// Width at which no row is cut short.
    fn widest_mm(&self) -> f64 {
        let row_mm = |row: &Row| {
            let words_mm = text_width_mm(&row.words, TEXT_MM, row.is_trouble);
            let name_mm = (text_width_mm(&row.name, TEXT_MM, true) / 0.6)
                .max(text_width_mm(&row.name, TEXT_MM, true) + words_mm + BESIDE_MM + 2.0 * NAME_INSET_MM);
            row.indent as f64 * INDENT_MM + name_mm + 2.0 * INSET_MM
        };
        self.rows.iter().map(row_mm).fold(0.0, f64::max)
    }
}

/// A link from one building to another.
struct Link {
    from: [String; 2],
    to: [String; 2],
    words: String,
}

/// Draws the overview, one scene for each sheet.
pub fn overview(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let lettering = options.lettering();
    let subject = lettering.word(Word::OverviewSubject);
    let block = TitleBlock::of_site(site, subject, verdict_note(assessment, lettering), options)
        .of_kind(Word::KindOverview);
    let links = links(site, lettering);
    let all = blocks(site, assessment, false, lettering);
    let small = options.sheet.unwrap_or(SheetSize::A4);
    let large = if small == SheetSize::LETTER { SheetSize::TABLOID } else { SheetSize::A3 };
    let frames = [small, large].map(|size| Frame::new(size, &block, &[]));
    let fits = |frame: &&Frame| laid_out(frame.content, &all, &links).len() == 1 && all_fit(frame, &all);
    let (frame, blocks) = match frames.iter().find(fits) {
        Some(frame) => (frame, all),
        None => {
            let together = blocks(site, assessment, true, lettering);
            (&frames[1], split(together, frames[1].content.height, lettering))
        }
    };
    let (content, factor) = enlarged(frame.content, &blocks, &links);
    let sheets = laid_out(content, &blocks, &links);
    let groups = sheets.into_iter().map(|parts| {
        let mut group = Group::new("overview");
        for (part, area) in parts {
            match part {
                Part::Building(index) => group.group(draw_block(&blocks[index], area)),
                Part::Links(from, to) => group.group(draw_links(&links[from..to], area, lettering)),
            }
        }
        if blocks.is_empty() {
            let at = (content.x, content.y + 6.0);
            group.text(Layer::Lettering, Text::new(at, lettering.word(Word::NothingStands), HEAD_TEXT_MM));
        }
        group.transform(factor, (content.x * (1.0 - factor), content.y * (1.0 - factor)));
        group
    });
    let titles: Vec<&str> = blocks.iter().map(|block| block.title.as_str()).collect();
    let description =
        lettering.say(&Phrase::OverviewShows { buildings: &titles.join(", "), links: links.len() });
    frame.sheets(groups.collect(), &block, &[], lettering.word(Word::OverviewWhat), &description)
}

/// What stands on a sheet.
#[derive(Clone, Copy)]
enum Part {
    /// The frame of a building: its index.
    Building(usize),
    /// Links, from this one up to that.
    Links(usize, usize),
}

/// Where everything goes, sheet by sheet: frames side by side in rows, the links below them.
fn laid_out(content: Area, blocks: &[Block], links: &[Link]) -> Vec<Vec<(Part, Area)>> {
    let most = ((content.width + GAP_MM) / (LEAST_FRAME_MM + GAP_MM)) as usize;
    let across = most.clamp(1, blocks.len().max(1));
    let width = (content.width + GAP_MM) / across as f64 - GAP_MM;
    let mut sheets: Vec<Vec<(Part, Area)>> = vec![Vec::new()];
    let mut y = content.y;
    let mut add = |parts: Vec<(Part, f64, f64)>, height: f64| {
        if y + height > content.bottom() + 1e-6 && y > content.y {
            sheets.push(Vec::new());
            y = content.y;
        }
        if let Some(sheet) = sheets.last_mut() {
            let placed = parts.into_iter().map(|(part, x, width)| (part, Area::new(x, y, width, height)));
            sheet.extend(placed);
        }
        y += height + GAP_MM;
    };
    for (row, in_row) in blocks.chunks(across).enumerate() {
        let height = in_row.iter().map(Block::height_mm).fold(0.0, f64::max);
        let x = |place: usize| content.x + place as f64 * (width + GAP_MM);
        let parts = (0..in_row.len()).map(|place| (Part::Building(row * across + place), x(place), width));
        add(parts.collect(), height);
    }
    let in_group = links_down(content.height) * links_across(content.width);
    for (group, in_one) in links.chunks(in_group).enumerate() {
        let height = HEAD_MM + in_one.len().div_ceil(links_across(content.width)) as f64 * LINK_MM;
        let first = group * in_group;
        add(vec![(Part::Links(first, first + in_one.len()), content.x, content.width)], height);
    }
    sheets
}

/// The room of a sheet as it is before it is enlarged, and by how much that is: as far as a single sheet still holds everything and no
/// name or word is cut short that is not already.
fn enlarged(content: Area, blocks: &[Block], links: &[Link]) -> (Area, f64) {
    let steps = ((MOST_ENLARGED - 1.0) / ENLARGED_STEP).round() as usize;
    let tried = (1..=steps).rev().map(|step| 1.0 + step as f64 * ENLARGED_STEP).map(|factor| {
        (Area::new(content.x, content.y, content.width / factor, content.height / factor), factor)
    });
    let holds = |(room, _): &(Area, f64)| {
        let sheets = laid_out(*room, blocks, links);
        let placed = || sheets.iter().flatten();
        let is_wide = |part: &Part, area: &Area| match part {
            Part::Building(index) => blocks[*index].widest_mm() <= area.width,
            Part::Links(..) => area.width >= LEAST_LINK_MM,
        };
        sheets.len() == 1
            && placed().all(|(_, area)| area.bottom() <= room.bottom() + 1e-6)
            && placed().all(|(part, area)| is_wide(part, area))
    };
    tried.into_iter().find(holds).unwrap_or((content, 1.0))
}

/// Links that stand below one another on a sheet of this height.
fn links_down(height: f64) -> usize {
    (((height - HEAD_MM) / LINK_MM) as usize).max(1)
}

/// Whether no building's frame is taller than a sheet.
fn all_fit(frame: &Frame, blocks: &[Block]) -> bool {
    blocks.iter().all(|block| block.height_mm() <= frame.content.height + 1e-6)
}

/// Frames no taller than this: what is taller goes on in another.
fn split(blocks: Vec<Block>, height: f64, lettering: Lettering) -> Vec<Block> {
    let most = (((height - HEAD_MM - INSET_MM) / ROW_MM) as usize).max(1);
    let mut all = Vec::new();
    for block in blocks {
        let title = lettering.say(&Phrase::TitleContinued { title: &block.title });
        let mut rows = block.rows.into_iter();
        let first: Vec<Row> = rows.by_ref().take(most).collect();
        all.push(Block { title: block.title, rows: first });
        loop {
            let rows: Vec<Row> = rows.by_ref().take(most).collect();
            if rows.is_empty() {
                break;
            }
            all.push(Block { title: title.clone(), rows });
        }
    }
    all
}

fn links_across(width: f64) -> usize {
    ((width / LEAST_LINK_MM) as usize).max(1)
}

/// The frames of all buildings, then that of what stands in none.
fn blocks(site: &Site, assessment: &Assessment, together: bool, lettering: Lettering) -> Vec<Block> {
    let places = (0..site.buildings.len()).map(Some).chain(std::iter::once(None));
    let block = |building: Option<usize>| {
        let mut rows = supplies(site, assessment, building, together, lettering);
        rows.extend(doors(site, building, lettering));
        rows.extend(floors(site, building, lettering));
        let title = match building {
            Some(index) => {
                let building = &site.buildings[index];
                if building.title == building.id.as_str() {
                    building.id.to_string()
                } else {
                    format!("{}  {}", building.id, building.title)
                }
            }
            None => String::from(lettering.word(Word::OutsideBuildings)),
        };
        Block { title, rows }
    };
    places.map(block).filter(|block| !block.rows.is_empty()).collect()
}

/// The source of a tree as it is judged.
fn source(assessment: &Assessment, wanted: StageSource) -> Option<&SourceSummary> {
    assessment.sources.iter().find(|source| source.source == wanted)
}

/// How much the worst device of a tree has in hand, in words, and whether a limit is broken.
fn margin(assessment: &Assessment, source: &SourceSummary, lettering: Lettering) -> (String, bool) {
    let Some(worst) = source.worst_device.map(|index| &assessment.devices[index]) else {
        return (String::new(), false);
    };
    let margin_v = worst.worst.margin_v();
    let device = worst.id.as_str();
    let words = match worst.worst.adverse_v {
        Some(_) => {
            let margin = &format!("{} V", lettering.rounded_down(margin_v)).replace('-', "−");
            lettering.say(&Phrase::WorstMargin { margin, device })
        }
        None => format!("{}: {device}", lettering.word(Word::NoOperatingPoint)),
    };
    (words, margin_v < 0.0)
}

/// Supplies of a building, below each the boxes that hang on it there, each below the box that feeds it; then boxes that are fed from
/// another building.
fn supplies(
    site: &Site,
    assessment: &Assessment,
    building: Option<usize>,
    together: bool,
    lettering: Lettering,
) -> Vec<Row> {
    let mut shown: Vec<usize> = Vec::new();
    let mut rows = Vec::new();
    for (index, supply) in site.supplies.iter().enumerate() {
        if supply.place.building != building {
            continue;
        }
        let judged = source(assessment, StageSource::Supply(index));
        let (words, is_trouble) = judged.map_or((String::new(), false), |judged| {
            let (margin, is_trouble) = margin(assessment, judged, lettering);
            let stations = lettering.say(&Phrase::StationsInAll { stations: judged.stations });
            (joined(&[&supply.model.value, &stations, &margin]), is_trouble)
        });
        rows.push(Row { indent: 0, name: supply.id.to_string(), words, is_trouble, is_block: true });
        let below = hanging(site, building, Feeder::Supply(index), 1, &mut shown);
        rows.extend(boxes(site, assessment, &below, together, lettering));
    }
    let elsewhere = (0..site.boxes.len()).filter(|index| site.boxes[*index].place.building == building);
    let mut others = Vec::new();
    // Those first of which the feeder is not here: the others hang on them. One that nothing feeds comes last.
    let is_first = |index: &usize| {
        feeder(site, *index).is_some_and(|feeder| match feeder {
            Feeder::Supply(supply) => site.supplies[supply].place.building != building,
            Feeder::Box(other) => site.boxes[other].place.building != building,
        })
    };
    let (first, last): (Vec<usize>, Vec<usize>) = elsewhere.partition(is_first);
    for index in first.into_iter().chain(last) {
        if !shown.contains(&index) {
            shown.push(index);
            others.push((index, 0));
            others.extend(hanging(site, building, Feeder::Box(index), 1, &mut shown));
        }
    }
    rows.extend(boxes(site, assessment, &others, together, lettering));
    rows
}

fn boxes(
    site: &Site,
    assessment: &Assessment,
    list: &[(usize, usize)],
    together: bool,
    lettering: Lettering,
) -> Vec<Row> {
    let used = |index: usize| {
        let is_of = |start: RunStart| matches!(start, RunStart::Port { box_index, .. } if box_index == index);
        site.runs.iter().filter(|run| is_of(run.from)).count()
    };
    let ports = |index: usize| site.box_model(&site.boxes[index]).ports.value as usize;
    if together && list.len() > 1 {
        let (used, ports) =
            list.iter().fold((0, 0), |sum, (index, _)| (sum.0 + used(*index), sum.1 + ports(*index)));
        let words = lettering.say(&Phrase::PortsUsed { used, ports });
        let name = lettering.say(&Phrase::BoxesInAll { boxes: list.len() });
        let indent = list[0].1;
        return vec![Row { indent, name, words, is_trouble: false, is_block: true }];
    }
    let row = |(index, indent): &(usize, usize)| {
        let item = &site.boxes[*index];
        let ports = lettering.say(&Phrase::PortsUsed { used: used(*index), ports: ports(*index) });
        let stations = stations_on(site, *index);
        let stations = match stations {
            0 => String::new(),
            stations => lettering.say(&Phrase::StationsInAll { stations }),
        };
        // One that makes a bus of its own has the worst of it.
        let judged = source(assessment, StageSource::Regenerator(*index));
        let (margin, is_trouble) =
            judged.map_or((String::new(), false), |judged| margin(assessment, judged, lettering));
        let words = joined(&[&item.model.value, &ports, &stations, &margin]);
        Row { indent: *indent, name: item.id.to_string(), words, is_trouble, is_block: true }
    };
    list.iter().map(row).collect()
}

/// Stations on the runs of a box's own ports.
fn stations_on(site: &Site, index: usize) -> usize {
    let is_of = |start: RunStart| matches!(start, RunStart::Port { box_index, .. } if box_index == index);
    let sections = site.runs.iter().filter(|run| is_of(run.from)).flat_map(|run| &run.sections);
    sections.filter(|section| matches!(section.to, RunStop::Station(_))).count()
}

fn joined(words: &[&str]) -> String {
    let said: Vec<&str> = words.iter().copied().filter(|words| !words.is_empty()).collect();
    said.join(" · ")
}

/// Doors and desks of a building.
fn doors(site: &Site, building: Option<usize>, lettering: Lettering) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut add = |name: String, words: String| {
        rows.push(Row { indent: 0, name, words, is_trouble: false, is_block: true });
    };
    for entrance in site.entrances.iter().filter(|entrance| entrance.place.building == building) {
        let model = &site.station_model(&site.stations[entrance.station]).head.name;
        let role = match entrance.role.value {
            EntranceRole::Main => lettering.word(Word::MainEntrance),
            EntranceRole::Secondary => "",
        };
        let locks = match entrance.locks.len() {
            0 => String::new(),
            locks => lettering.say(&Phrase::LocksInAll { locks }),
        };
        add(entrance.id.to_string(), joined(&[lettering.word(Word::DoorStation), role, model, &locks]));
    }
    for desk in site.management.iter().filter(|desk| desk.place.building == building) {
        add(desk.id.to_string(), String::from(lettering.word(Word::ManagementStation)));
    }
    rows
}

/// The floors of a building from the highest down, neighbours with as many dwellings together.
fn floors(site: &Site, building: Option<usize>, lettering: Lettering) -> Vec<Row> {
    let count = |floor: Option<usize>| {
        let is_there = |place: &Place| place.building == building && place.floor == floor;
        site.dwellings.iter().filter(|dwelling| is_there(&dwelling.place)).count()
    };
    let row =
        |name: String, words: String| Row { indent: 0, name, words, is_trouble: false, is_block: false };
    let mut rows = Vec::new();
    let names: Vec<&str> = building.map_or(Vec::new(), |index| {
        site.buildings[index].floors.iter().map(|floor| floor.value.as_str()).collect()
    });
    let counts: Vec<usize> = (0..names.len()).map(|floor| count(Some(floor))).collect();
    let mut last = names.len();
    while let Some(top) = last.checked_sub(1) {
        let mut first = top;
        while first > 0 && counts[first - 1] == counts[top] {
            first -= 1;
        }
        if counts[top] > 0 {
            rows.push(match first == top {
                true => row(
                    lettering.say(&Phrase::FloorNamed { floor: names[top] }),
                    lettering.say(&Phrase::DwellingsInAll { dwellings: counts[top] }),
                ),
                false => row(
                    lettering.say(&Phrase::FloorsNamed { first: names[first], last: names[top] }),
                    lettering.say(&Phrase::DwellingsOnEach { dwellings: counts[top] }),
                ),
            });
        }
        last = first;
    }
    match count(None) {
        0 => {}
        dwellings => {
            let name = lettering.word(Word::FloorNotStated);
            rows.push(row(String::from(name), lettering.say(&Phrase::DwellingsInAll { dwellings })));
        }
    }
    rows
}

/// Runs that lead from one building to another.
fn links(site: &Site, lettering: Lettering) -> Vec<Link> {
    let building = |place: &Place| match place.building {
        Some(index) => site.buildings[index].id.to_string(),
        None => String::from(lettering.word(Word::OutsideBuildings)),
    };
    let link = |run: &latchline_site::model::Run| {
        let last = run.sections.last()?;
        let protection =
            match protectors::of_sections(site, run).iter().fold((false, false), |seen, section| {
                (seen.0 || section.before.is_some(), seen.1 || section.behind.is_some())
            }) {
                (true, true) => Word::ProtectedAtBothEnds,
                (false, false) => Word::NotProtected,
                _ => Word::ProtectedAtOneEnd,
            };
        let run_id = run.id.as_str();
        let length = lettering.length(run.length().as_metres());
        let conductor = lettering.conductor(site, run);
        Some(Link {
            from: [building(site.start_place(run.from)), site.start_id(run.from).to_string()],
            to: [building(site.stop_place(last.to)), site.stop_id(last.to).to_string()],
            words: joined(&[run_id, &length, &conductor, lettering.word(protection)]),
        })
    };
    site.runs.iter().filter(|run| leaves_its_building(site, run)).filter_map(link).collect()
}

fn thin(ink: Ink) -> Stroke {
    Stroke::solid(ink, Pen::Thin)
}

fn draw_block(block: &Block, area: Area) -> Group {
    let mut group = Group::new("overview-building");
    group.role.title = Some(block.title.clone());
    group.rectangle(Layer::Building, area, 0.0, Some(Stroke::solid(Ink::Outline, Pen::Thick)), None);
    let room = area.width - 2.0 * INSET_MM;
    let at = (area.x + INSET_MM, area.y + 5.4);
    group.text(Layer::Building, fitted(at, &block.title, HEAD_TEXT_MM, true, room));
    let mut y = area.y + HEAD_MM;
    // The lines along which power comes down: from below the last row of each indent.
    let mut above: Vec<f64> = Vec::new();
    for row in &block.rows {
        let left = area.x + INSET_MM + row.indent as f64 * INDENT_MM;
        let box_area = Area::new(left, y, area.right() - INSET_MM - left, ROW_MM - 0.8);
        let middle = y + (ROW_MM - 0.8) / 2.0;
        above.truncate(row.indent + 1);
        if row.indent > 0
            && let Some(from) = above.get(row.indent - 1)
        {
            let x = left - INDENT_MM / 2.0;
            group.path(
                Layer::Wiring,
                vec![(x, *from), (x, middle), (left, middle)],
                Stroke::solid(Ink::Text, Pen::Middle),
            );
        }
        if row.is_block {
            let ink = if row.is_trouble { Ink::Trouble } else { Ink::Outline };
            group.rectangle(Layer::Device, box_area, 0.6, Some(thin(ink)), Some(Ink::Inside));
        }
        let baseline = y + 3.2;
        let name = fitted((left + NAME_INSET_MM, baseline), &row.name, TEXT_MM, true, box_area.width * 0.6);
        let name_mm = text_width_mm(&name.text, name.size_mm, true);
        let beside = left + NAME_INSET_MM + name_mm + BESIDE_MM;
        group.text(Layer::Lettering, name);
        let ink = if row.is_trouble { Ink::Trouble } else { Ink::Text };
        let room = (box_area.right() - NAME_INSET_MM - beside).max(1.0);
        let words = fitted((beside, baseline), &row.words, TEXT_MM, row.is_trouble, room);
        group.text(Layer::Lettering, words.ink(ink));
        above.truncate(row.indent);
        above.push(y + ROW_MM - 0.8);
        y += ROW_MM;
    }
    group
}

fn draw_links(links: &[Link], area: Area, lettering: Lettering) -> Group {
    let mut group = Group::new("overview-links");
    let head = Text::new((area.x, area.y + 5.4), lettering.word(Word::LinksBetweenBuildings), HEAD_TEXT_MM);
    group.text(Layer::Lettering, head.bold());
    let across = links_across(area.width);
    let width = area.width / across as f64;
    for (number, link) in links.iter().enumerate() {
        let x = area.x + (number % across) as f64 * width;
        let y = area.y + HEAD_MM + (number / across) as f64 * LINK_MM;
        let end = width * 0.22;
        let room = width - GAP_MM;
        let places = [(x, &link.from), (x + room - end, &link.to)];
        for (left, [building, device]) in places {
            let block = Area::new(left, y, end, LINK_MM - 1.6);
            group.rectangle(Layer::Device, block, 0.6, Some(thin(Ink::Outline)), Some(Ink::Inside));
            let text = |line: f64, words: &str, bold: bool| {
                fitted((left + 1.2, y + line), words, TEXT_MM, bold, end - 2.4)
            };
            group.text(Layer::Lettering, text(3.6, building, true));
            group.text(Layer::Lettering, text(7.6, device, false));
        }
        let (from, to, middle) = (x + end, x + room - end, y + (LINK_MM - 1.6) / 2.0 + 1.2);
        group.line(Layer::Wiring, (from, middle), (to, middle), Stroke::solid(Ink::Text, Pen::Heavy));
        let words = fitted((from + 1.5, middle - 1.6), &link.words, TEXT_MM, false, to - from - 3.0);
        group.text(Layer::Lettering, words);
    }
    group
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests may fail")]
mod tests;
