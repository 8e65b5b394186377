//! The sheets of all cards: each with the frame and title block of a drawing, and the head of its card.
//!
//! A card is one upright A4 sheet (letter) where that holds it, and one A3 sheet on its side (tabloid) where it does not;
//! a place with more than that has several of these.

use super::data::{CardSet, JobCardPicture};
use super::fill::Room;
use super::flow::flow;
use super::lines::{FOOT_MM, MARK_MM, NAME_MM, TEXT_MM, letter, letter_lines, letter_to, line_mm, size_for};
use crate::frame::Frame;
use crate::language::{Phrase, Word};
use crate::sheet::{SheetOptions, SheetSize, TitleBlock};
use latchline_assess::Assessment;
use latchline_scene::font::{text_width_mm, wrapped};
use latchline_scene::{Area, Group, Layer, Pen, Scene, Stroke};
use latchline_site::model::Site;

/// Sizes of the place.
const PLACE_MM: (f64, f64) = (NAME_MM, 6.4);

/// A size of sheet with the columns that it holds.
type Paper = (SheetSize, usize);

/// The sizes that a card may have, from the handiest.
fn papers(size: SheetSize) -> [Paper; 2] {
    let larger = if size == SheetSize::LETTER_UPRIGHT { SheetSize::TABLOID } else { SheetSize::A3 };
    [(size, 2), (larger, 4)]
}

/// A card as it lies on its sheets.
struct Laid<'s> {
    card: &'s JobCardPicture,
    frame: Frame,
    block: TitleBlock,
    head: Group,
    sheets: Vec<Group>,
}

/// The sheets of every card, each card beginning on a new one.
pub fn job_card_sheets(
    site: &Site,
    set: &CardSet,
    assessment: &Assessment,
    options: &SheetOptions,
) -> Vec<Scene> {
    let size = options.sheet.unwrap_or(SheetSize::A4_UPRIGHT);
    let laid: Vec<Laid<'_>> =
        set.cards.iter().map(|card| laid(site, set, card, assessment, options, papers(size))).collect();
    let of = laid.iter().map(|card| card.sheets.len()).sum();
    let mut scenes: Vec<Scene> = Vec::with_capacity(of);
    for Laid { card, frame, block, head, sheets } in laid {
        let of_card = sheets.len();
        for (number, blocks) in sheets.into_iter().enumerate() {
            let names: Vec<&str> = card.blocks.iter().map(|block| block.designation.as_str()).collect();
            let title = format!("{}: {} {}", card.number, card.kind, card.place);
            let mut scene = frame.scene(title, [card.power.as_str(), &names.join(", ")].join(". "));
            scene.language = options.locale.language;
            let mut root = Group::new("job-card");
            root.group(head.clone());
            if of_card > 1 {
                root.group(numbered(&frame, options, number + 1, of_card));
            }
            root.group(blocks);
            scene.root.group(root);
            frame.draw(&mut scene.root, &block, &[], scenes.len() + 1, of);
            scenes.push(scene);
        }
    }
    scenes
}

/// A card on the first size of sheet that holds it, else on several of the last.
fn laid<'s>(
    site: &Site,
    set: &'s CardSet,
    card: &'s JobCardPicture,
    assessment: &Assessment,
    options: &SheetOptions,
    papers: [Paper; 2],
) -> Laid<'s> {
    let subject = format!("{}: {} {}", card.number, card.kind, card.place);
    let block = TitleBlock::of_site(site, &subject, set.caution.clone(), options).of_kind(Word::KindJobCard);
    let on = |(size, columns): Paper, may_tear: bool| {
        let frame = Frame::new(size, &block, &[]);
        let (head, head_mm) = head(set, card, frame.content);
        let Area { x, y, width, height } = frame.content;
        let content = Area::new(x, y + head_mm, width, (height - head_mm).max(40.0));
        let room = Room { content, columns, beside: frame.beside_title() };
        let sheets = flow(&card.blocks, set, (room, may_tear), assessment, options.lettering());
        (frame, head, sheets)
    };
    let small = on(papers[0], false);
    let (frame, head, sheets) = if small.2.len() == 1 { small } else { on(papers[1], true) };
    Laid { card, frame, block, head, sheets }
}

/// The head of a card, and its height.
fn head(set: &CardSet, card: &JobCardPicture, content: Area) -> (Group, f64) {
    let mut group = Group::new("job-card-head");
    let mut y = content.y;
    let number_mm = text_width_mm(&card.number, NAME_MM, true);
    letter_to(&mut group, (content.right(), y), &card.number, NAME_MM, true);
    let kind_mm = text_width_mm(&card.kind, MARK_MM, true) + 2.5;
    let room = content.width - number_mm - kind_mm - 6.0;
    let size = size_for(&card.place, true, PLACE_MM, room);
    let lines = wrapped(&card.place, size, true, room);
    let top = super::lines::baseline_mm(size) - super::lines::baseline_mm(MARK_MM);
    letter(&mut group, (content.x, y + top), &card.kind, MARK_MM, true);
    y += letter_lines(&mut group, (content.x + kind_mm, y), &lines, size, true);
    let neighbours = card.neighbours.join("   ");
    let power_mm = text_width_mm(&card.power, TEXT_MM, true) + 6.0;
    // Both in one line where there is room.
    let is_one = power_mm + text_width_mm(&neighbours, TEXT_MM, false) <= content.width - number_mm;
    if is_one {
        letter(&mut group, (content.x + power_mm, y), &neighbours, TEXT_MM, false);
    }
    let power = wrapped(&card.power, TEXT_MM, true, content.width);
    y += letter_lines(&mut group, (content.x, y), &power, TEXT_MM, true);
    let further = if is_one { "" } else { neighbours.as_str() };
    for (line, size) in [(further, TEXT_MM), (set.legend.as_str(), FOOT_MM)] {
        let lines = wrapped(line, size, false, content.width);
        y += letter_lines(&mut group, (content.x, y), &lines, size, false);
    }
    y += 0.6;
    group.line(
        Layer::Frame,
        (content.x, y),
        (content.right(), y),
        Stroke::solid(latchline_scene::palette::Ink::Text, Pen::Heavy),
    );
    (group, y + 1.6 - content.y)
}

/// Which sheet of its card it is, below the number of the card.
fn numbered(frame: &Frame, options: &SheetOptions, sheet: usize, of: usize) -> Group {
    let lettering = options.lettering();
    let words = format!("{} {}", lettering.word(Word::Sheet), lettering.say(&Phrase::SheetOf { sheet, of }));
    let mut group = Group::new("job-card-sheet-number");
    let at = (frame.content.right(), frame.content.y + line_mm(NAME_MM));
    letter_to(&mut group, at, &words, TEXT_MM, true);
    group
}
