//! The sheets of all cards, with their heads and feet.

use super::data::{CardSet, JobCardPicture};
use super::flow::flow;
use super::lines::{FOOT_MM, MARK_MM, NAME_MM, TEXT_MM, letter, letter_lines, letter_to, line_mm, size_for};
use crate::font::{shortened, text_width_mm, wrapped};
use crate::language::{Lettering, Phrase, Word};
use crate::palette::Ink;
use crate::scene::{Area, Group, Layer, Pen, Scene, Stroke, Text};
use crate::sheet::SheetSize;
use latchline_assess::Assessment;
use latchline_finding::Locale;

/// Margin for filing, and the other three (ISO 5457).
const FILING_MM: f64 = 20.0;
const MARGIN_MM: f64 = 10.0;
/// Sizes of the place.
const PLACE_MM: (f64, f64) = (NAME_MM, 8.5);
/// Height of what a site with errors says.
const WARNING_MM: f64 = 9.0;

/// The sheets of every card, each card beginning on a new one.
pub fn job_card_sheets(
    set: &CardSet,
    assessment: &Assessment,
    size: SheetSize,
    locale: Locale,
) -> Vec<Scene> {
    let mut scenes = Vec::new();
    let border = Area::new(
        FILING_MM,
        MARGIN_MM,
        size.width_mm - FILING_MM - MARGIN_MM,
        size.height_mm - 2.0 * MARGIN_MM,
    );
    let foot_mm = line_mm(TEXT_MM) + 1.5;
    for card in &set.cards {
        let (head, head_mm) = head(set, card, border);
        let content = Area::new(
            border.x,
            border.y + head_mm,
            border.width,
            (border.height - head_mm - foot_mm).max(40.0),
        );
        let sheets = flow(&card.blocks, set, content, assessment, Lettering(locale));
        let of = sheets.len();
        for (number, blocks) in sheets.into_iter().enumerate() {
            let mut root = Group::new("job-card");
            root.group(head.clone());
            root.group(blocks);
            let sheet = Lettering(locale).say(&Phrase::SheetOf { sheet: number + 1, of });
            let word = Lettering(locale).word(Word::Sheet);
            root.group(foot(set, border, &format!("{} · {word} {sheet}", card.number)));
            let said = |parts: &[&str]| parts.join(". ");
            let names: Vec<&str> = card.blocks.iter().map(|block| block.designation.as_str()).collect();
            scenes.push(Scene {
                width_mm: size.width_mm,
                height_mm: size.height_mm,
                title: format!("{}: {} {}", card.number, card.kind, card.place),
                description: said(&[&card.power, &names.join(", ")]),
                language: locale.language,
                root,
            });
        }
    }
    scenes
}

/// The head of a card, and its height.
fn head(set: &CardSet, card: &JobCardPicture, border: Area) -> (Group, f64) {
    let mut group = Group::new("job-card-head");
    let mut y = border.y;
    if let Some(warning) = &set.warning {
        let area = Area::new(border.x, y, border.width, WARNING_MM);
        group.rectangle(Layer::Trouble, area, 0.0, None, Some(Ink::Text));
        let size = size_for(warning, true, (3.0, 5.0), area.width - 6.0);
        let text = Text::new((area.x + 3.0, y + 6.2), warning.as_str(), size).bold().ink(Ink::Paper);
        group.text(Layer::Trouble, text);
        y += WARNING_MM + 1.5;
    }
    let number_mm = text_width_mm(&card.number, NAME_MM, true);
    letter_to(&mut group, (border.right(), y + 1.2), &card.number, NAME_MM, true);
    letter(&mut group, (border.x, y), &card.kind, MARK_MM, true);
    let below = y + line_mm(MARK_MM);
    let room = border.width - number_mm - 6.0;
    let size = size_for(&card.place, true, PLACE_MM, room);
    let lines = wrapped(&card.place, size, true, room);
    let left_end = below + letter_lines(&mut group, (border.x, below), &lines, size, true);
    y = left_end.max(y + 1.2 + line_mm(NAME_MM)) + 0.5;
    let power = wrapped(&card.power, MARK_MM, true, border.width);
    y += letter_lines(&mut group, (border.x, y), &power, MARK_MM, true);
    let neighbours = card.neighbours.join("   ");
    for (line, size) in [(&neighbours, TEXT_MM), (&set.legend, FOOT_MM)] {
        let lines = wrapped(line, size, false, border.width);
        y += letter_lines(&mut group, (border.x, y), &lines, size, false);
    }
    y += 0.8;
    group.line(Layer::Frame, (border.x, y), (border.right(), y), Stroke::solid(Ink::Text, Pen::Heavy));
    (group, y + 2.2 - border.y)
}

fn foot(set: &CardSet, border: Area, sheet: &str) -> Group {
    let mut group = Group::new("job-card-foot");
    let y = border.bottom() - line_mm(TEXT_MM);
    let taken = text_width_mm(sheet, TEXT_MM, true) + 5.0;
    let words = shortened(&set.foot, FOOT_MM, false, border.width - taken);
    letter(&mut group, (border.x, y), &words, FOOT_MM, false);
    letter_to(&mut group, (border.right(), y), sheet, TEXT_MM, true);
    group
}
