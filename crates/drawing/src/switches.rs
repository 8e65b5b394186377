//! Pictures of switch settings, at true scale.
//!
//! DIP switches and jumpers have the usual pitch of 2.54 mm, so a printed picture can be laid beside
//! the bank. What is set is told by position, by fill and by a word or figure, not by colour.

use crate::frame::Frame;
use crate::language::{Lettering, Phrase, Word};
use crate::sheet::{SheetOptions, SheetSize, TitleBlock};
use latchline_finding::Locale;
use latchline_scene::font::{LADDER_MM, LEADING, text_width_mm, wrapped};
use latchline_scene::palette::Ink;
use latchline_scene::svg::on_circle;
use latchline_scene::{Anchor, Area, Group, Layer, Pen, Point, Scene, Stroke, Text};
use latchline_site::addresses::{AddressPlan, DeviceClass, SwitchSetting, fields_of, settings};
use latchline_site::catalogue::AddressField;
use latchline_site::model::Site;
use latchline_wiring::Item;
use latchline_wiring::item::walking_order;

/// Pitch of DIP switches and pin headers.
pub const PITCH_MM: f64 = 2.54;
/// From the label to the switch, and below the last line of words.
const LABEL_MM: f64 = 4.6;
const BELOW_MM: f64 = 1.6;
const DIAL_MM: f64 = 18.0;
/// From one dial to the next: room for the words below each.
const DIAL_PITCH_MM: f64 = DIAL_MM + 1.5;
/// All lettering: switches are set on a ladder.
const TEXT_MM: f64 = LADDER_MM;
const LINE_MM: f64 = TEXT_MM * LEADING;
const GAP_MM: f64 = 3.0;
/// Size of the name of a station on its card.
const NAME_MM: f64 = 4.6;

fn thin() -> Stroke {
    Stroke::solid(Ink::Text, Pen::Thin)
}

/// Width of the picture of a setting with this label.
pub fn picture_width_mm(label: &str, setting: &SwitchSetting) -> f64 {
    let own = match setting {
        SwitchSetting::Rotary { at, .. } => at.len() as f64 * DIAL_PITCH_MM - 1.5,
        SwitchSetting::Dip { on, .. } => on.len() as f64 * PITCH_MM + 2.0 + 9.0,
        SwitchSetting::Jumpers { fitted } => (fitted.len() as f64 * PITCH_MM + 2.0).max(26.0),
        SwitchSetting::Keyed { digits } => digits.chars().count() as f64 * 7.0,
    };
    own.max(text_width_mm(label, TEXT_MM, true)).max(14.0)
}

/// Height of the picture of a setting, label included.
pub fn picture_height_mm(setting: &SwitchSetting, locale: Locale) -> f64 {
    let own = match setting {
        SwitchSetting::Rotary { positions, at } => {
            let lines = (0..at.len()).map(|place| {
                let word = weight_word(*positions, weight(*positions, at.len(), place), Lettering(locale));
                wrapped(word, TEXT_MM, false, DIAL_PITCH_MM).len()
            });
            DIAL_MM + 3.8 + lines.max().unwrap_or(0) as f64 * LINE_MM
        }
        SwitchSetting::Dip { first_switch, on } => dip_body_mm(*first_switch, on) + 3.8,
        SwitchSetting::Jumpers { fitted } => {
            let kinds = 1 + usize::from(fitted.contains(&true) && fitted.contains(&false));
            2.0 * PITCH_MM + 1.6 + 3.4 + (0.3 + kinds as f64) * LINE_MM
        }
        SwitchSetting::Keyed { .. } => 11.2,
    };
    LABEL_MM + own + BELOW_MM
}

/// What a place of a rotary number counts.
fn weight(positions: u32, places: usize, place: usize) -> Option<u64> {
    u64::from(positions).checked_pow((places - 1 - place) as u32)
}

/// The word for it, below the dial.
fn weight_word(positions: u32, weight: Option<u64>, lettering: Lettering) -> &'static str {
    match (positions, weight) {
        (10, Some(100)) => lettering.word(Word::Hundreds),
        (10, Some(10)) => lettering.word(Word::Tens),
        (10, Some(1)) => lettering.word(Word::Units),
        (_, Some(16)) => lettering.word(Word::HighDigit),
        (_, Some(1)) => lettering.word(Word::LowDigit),
        _ => "",
    }
}

/// Numbers of two digits are wider than the pitch of a bank: every other one stands lower.
fn is_staggered(first: u32, on: &[bool]) -> bool {
    first + on.len() as u32 > 10
}

fn dip_body_mm(first: u32, on: &[bool]) -> f64 {
    if is_staggered(first, on) { 12.0 + LINE_MM } else { 12.0 }
}

/// The picture of a setting with its left upper corner at `corner`, under the label that is printed
/// beside the switch.
pub fn switch_picture(label: &str, setting: &SwitchSetting, corner: Point, locale: Locale) -> Group {
    let lettering = Lettering(locale);
    let mut group = Group::new("switch");
    group.role.title = Some(format!("{label}: {}", lettering.setting(setting)));
    let (x, y) = corner;
    group.text(Layer::Lettering, Text::new((x, y + 2.8), label, TEXT_MM).bold());
    let top = y + LABEL_MM;
    match setting {
        SwitchSetting::Rotary { positions, at } => {
            for (place, position) in at.iter().enumerate() {
                let left = x + place as f64 * DIAL_PITCH_MM;
                let weight = weight(*positions, at.len(), place);
                dial(&mut group, (left, top), (*positions, *position), weight, lettering);
            }
        }
        SwitchSetting::Dip { first_switch, on } => dip(&mut group, (x, top), *first_switch, on, lettering),
        SwitchSetting::Jumpers { fitted } => jumpers(&mut group, (x, top), fitted, lettering),
        SwitchSetting::Keyed { digits } => keyed(&mut group, (x, top), digits, lettering),
    }
    group
}

/// A rotary switch: figures around, an arrow to the one that is set, its weight and figure below.
fn dial(
    group: &mut Group,
    (x, y): Point,
    (positions, at): (u32, u32),
    weight: Option<u64>,
    lettering: Lettering,
) {
    let centre = (x + DIAL_MM / 2.0, y + DIAL_MM / 2.0);
    group.rectangle(Layer::Device, Area::new(x, y, DIAL_MM, DIAL_MM), 0.6, Some(thin()), Some(Ink::Inside));
    group.circle(Layer::Device, centre, 5.0, Some(thin()), None);
    let angle = |position: u32| 90.0 - 360.0 * f64::from(position) / f64::from(positions.max(1));
    for position in 0..positions.min(16) {
        let (px, py) = on_circle(centre, 7.2, angle(position));
        let chosen = position == at;
        let mut text =
            Text::new((px, py + TEXT_MM * 0.35), format!("{position:X}"), TEXT_MM).anchored(Anchor::Middle);
        text.bold = chosen;
        group.text(Layer::Lettering, text.ink(if chosen { Ink::Text } else { Ink::Quiet }));
    }
    let tip = on_circle(centre, 4.8, angle(at));
    let back = [on_circle(centre, 2.6, angle(at) + 140.0), on_circle(centre, 2.6, angle(at) - 140.0)];
    group.polygon(Layer::Device, vec![tip, back[0], back[1]], Ink::Text);
    let weight = weight_word(positions, weight, lettering);
    let position = lettering.say(&Phrase::RotaryAt { position: &format!("{at:X}") });
    let mut baseline = y + DIAL_MM + 3.8;
    let weights = wrapped(weight, TEXT_MM, false, DIAL_PITCH_MM);
    for (line, is_bold) in weights.into_iter().map(|line| (line, false)).chain([(position, true)]) {
        let mut text = Text::new((centre.0, baseline), line, TEXT_MM).anchored(Anchor::Middle);
        text.bold = is_bold;
        group.text(Layer::Lettering, text);
        baseline += LINE_MM;
    }
}

/// A bank of DIP switches, ON upward as printed on it.
fn dip(group: &mut Group, (x, y): Point, first: u32, on: &[bool], lettering: Lettering) {
    let staggered = is_staggered(first, on);
    let body_mm = dip_body_mm(first, on);
    let width = on.len() as f64 * PITCH_MM + 2.0;
    group.rectangle(Layer::Device, Area::new(x, y, width, body_mm), 0.4, Some(thin()), Some(Ink::Inside));
    for (place, on) in on.iter().enumerate() {
        let centre = x + 1.0 + (place as f64 + 0.5) * PITCH_MM;
        let slot = Area::new(centre - 0.8, y + 1.4, 1.6, 6.0);
        group.rectangle(Layer::Device, slot, 0.0, Some(thin()), Some(Ink::Paper));
        let top = if *on { slot.y } else { slot.y + 3.0 };
        group.rectangle(Layer::Device, Area::new(slot.x, top, 1.6, 3.0), 0.0, Some(thin()), Some(Ink::Text));
        let lower = if staggered && place % 2 == 1 { LINE_MM } else { 0.0 };
        let number = Text::new((centre, y + 11.0 + lower), (first + place as u32).to_string(), TEXT_MM);
        group.text(Layer::Lettering, number.anchored(Anchor::Middle).ink(Ink::Quiet));
    }
    let side = x + width + 1.2;
    group.text(Layer::Lettering, Text::new((side, y + 3.6), "ON", TEXT_MM).ink(Ink::Quiet));
    let arrow = vec![(side + 1.5, y + 4.6), (side + 0.7, y + 6.0), (side + 2.3, y + 6.0)];
    group.polygon(Layer::Device, arrow, Ink::Quiet);
    group.line(
        Layer::Device,
        (side + 1.5, y + 5.8),
        (side + 1.5, y + 7.6),
        Stroke::solid(Ink::Quiet, Pen::Thin),
    );
    let numbers: Vec<String> =
        (first..).zip(on).filter(|(_, on)| **on).map(|(number, _)| number.to_string()).collect();
    let words = match numbers.is_empty() {
        true => String::from(lettering.word(Word::AllOff)),
        false => lettering.say(&Phrase::SwitchesOn { numbers: &numbers.join(" ") }),
    };
    let text = Text::new((x, y + body_mm + 3.8), words, TEXT_MM).bold();
    group.text(Layer::Lettering, text);
}

/// A row of jumpers: a block over both pins where one is fitted, two open pins where none is.
fn jumpers(group: &mut Group, (x, y): Point, fitted: &[bool], lettering: Lettering) {
    let width = fitted.len() as f64 * PITCH_MM + 2.0;
    let body = Area::new(x, y, width, 2.0 * PITCH_MM + 1.6);
    group.rectangle(Layer::Device, body, 0.0, Some(thin()), Some(Ink::Inside));
    for (place, fitted) in fitted.iter().enumerate() {
        let centre = x + 1.0 + (place as f64 + 0.5) * PITCH_MM;
        let pins = [y + 0.8 + PITCH_MM / 2.0, y + 0.8 + 1.5 * PITCH_MM];
        if *fitted {
            let block = Area::new(centre - 1.0, y + 0.9, 2.0, 2.0 * PITCH_MM - 0.2);
            group.rectangle(Layer::Device, block, 0.3, Some(thin()), Some(Ink::Text));
        } else {
            for pin in pins {
                group.circle(Layer::Device, (centre, pin), 0.5, Some(thin()), Some(Ink::Paper));
            }
        }
        let number = Text::new((centre, body.bottom() + 3.4), (place + 1).to_string(), TEXT_MM);
        group.text(Layer::Lettering, number.anchored(Anchor::Middle).ink(Ink::Quiet));
    }
    let mut baseline = body.bottom() + 3.4 + 1.3 * LINE_MM;
    for (word, is_fitted) in [(Word::JumperFitted, true), (Word::JumperOpen, false)] {
        let of_it = (1..).zip(fitted).filter(|(_, fitted)| **fitted == is_fitted);
        let numbers: Vec<String> = of_it.map(|(number, _): (usize, _)| number.to_string()).collect();
        if numbers.is_empty() {
            continue;
        }
        let words = format!("{} {}", numbers.join(" "), lettering.word(word));
        group.text(Layer::Lettering, Text::new((x, baseline), words, TEXT_MM).bold());
        baseline += LINE_MM;
    }
}

/// Digits to key in, in the order of the keys.
fn keyed(group: &mut Group, (x, y): Point, digits: &str, lettering: Lettering) {
    for (place, digit) in digits.chars().enumerate() {
        let left = x + place as f64 * 7.0;
        group.rectangle(Layer::Device, Area::new(left, y, 6.0, 7.0), 1.0, Some(thin()), Some(Ink::Inside));
        let text = Text::new((left + 3.0, y + 5.0), digit.to_string(), 4.2).bold();
        group.text(Layer::Lettering, text.anchored(Anchor::Middle));
    }
    let text = Text::new((x, y + 11.2), lettering.word(Word::KeyIn), TEXT_MM);
    group.text(Layer::Lettering, text.ink(Ink::Quiet));
}

/// A card for each station with every switch that has to be set, in walking order, as many to a sheet as there is room for.
pub fn switch_sheets(site: &Site, plan: &AddressPlan, options: &SheetOptions) -> Vec<Scene> {
    let lettering = options.lettering();
    let block = TitleBlock::of_site(
        site,
        lettering.word(Word::SwitchSubject),
        if site.family().addresses.latched_at_power_up {
            String::from(lettering.word(Word::LatchedAtPowerUp))
        } else {
            String::new()
        },
        options,
    )
    .of_kind(Word::KindSettings);
    let frame = Frame::new(options.sheet.unwrap_or(SheetSize::A4_UPRIGHT), &block, &[]);
    let content = frame.content;
    let walked = walking_order(site).into_iter().filter_map(|item| match item {
        Item::Station(station) => plan.stations.iter().find(|address| address.station == station),
        _ => None,
    });
    let cards: Vec<Card> =
        walked.filter_map(|address| card(site, plan, address.station, lettering)).collect();
    let widest = cards.iter().map(Card::width_mm).fold(56.0, f64::max);
    let across = (((content.width + GAP_MM) / (widest + GAP_MM)) as usize).max(1);
    let width = (content.width + GAP_MM) / across as f64 - GAP_MM;
    let mut sheets: Vec<Vec<(Area, &Card)>> = vec![Vec::new()];
    let mut y = content.y;
    // A row is as high as its highest card.
    for row in cards.chunks(across) {
        let height = row.iter().map(|card| card.height_mm(width - 6.0, lettering)).fold(0.0, f64::max);
        if y > content.y && y + height > content.bottom() + 1e-6 {
            sheets.push(Vec::new());
            y = content.y;
        }
        for (place, card) in row.iter().enumerate() {
            let x = content.x + place as f64 * (width + GAP_MM);
            if let Some(sheet) = sheets.last_mut() {
                sheet.push((Area::new(x, y, width, height), card));
            }
        }
        y += height + GAP_MM;
    }
    let of = sheets.len();
    let mut scenes = Vec::with_capacity(of);
    for (number, on_sheet) in sheets.into_iter().enumerate() {
        let (what, sheet) = (lettering.word(Word::SwitchSettings), number + 1);
        let title = lettering.say(&Phrase::SheetTitle { site: &block.site, what, sheet, of });
        let lines: Vec<String> =
            on_sheet.iter().map(|(_, card)| format!("{}: {}", card.station, card.words)).collect();
        let mut scene = frame.scene(title, lines.join("; "));
        scene.language = block.locale.language;
        for (area, card) in on_sheet {
            scene.root.group(card.draw(area, lettering));
        }
        frame.draw(&mut scene.root, &block, &[], number + 1, of);
        scenes.push(scene);
    }
    scenes
}

/// Everything that has to be set on one station.
struct Card {
    station: String,
    model: String,
    words: String,
    /// What is said large of a number that another device has too.
    double: Option<String>,
    pictures: Vec<(String, SwitchSetting)>,
}

/// The address of every station that has one, in words, by its index.
pub(crate) fn address_words(
    site: &Site,
    plan: &AddressPlan,
    lettering: Lettering,
) -> impl Iterator<Item = (usize, String)> {
    let addresses = plan.stations.iter().enumerate();
    addresses.filter_map(move |(station, address)| {
        let words = words(site, address.class, address.numbers.as_deref()?, lettering);
        Some((station, words))
    })
}

fn words(site: &Site, class: DeviceClass, numbers: &[u32], lettering: Lettering) -> String {
    let word = |field: &AddressField| lettering.word(crate::language::field_word(field.kind));
    let fields = fields_of(site, class).iter().zip(numbers);
    let words: Vec<String> = fields.map(|(field, number)| format!("{} {number}", word(field))).collect();
    words.join(", ")
}

fn card(site: &Site, plan: &AddressPlan, station: usize, lettering: Lettering) -> Option<Card> {
    let address = plan.stations.get(station)?;
    let numbers = address.numbers.as_deref()?;
    let fields = fields_of(site, address.class);
    let words = words(site, address.class, numbers, lettering);
    let pictures = fields
        .iter()
        .zip(numbers)
        .filter_map(|(field, number)| Some((field.label.clone(), settings(field, *number)?)))
        .collect();
    let double = plan.doubles(site, station);
    let double =
        double.map(|others| lettering.say(&Phrase::DoubleAddress { others: &others, address: &words }));
    let station = &site.stations[station];
    let model = site.station_model(station).head.title.of(lettering.0.language).to_string();
    Some(Card { station: station.id.to_string(), model, words, double, pictures })
}

impl Card {
    /// Lines of the station and its model, then of its address.
    fn words(&self, room_mm: f64) -> (Vec<String>, Vec<String>, Vec<String>) {
        let address = self.double.as_ref().unwrap_or(&self.words);
        let is_bold = self.double.is_some();
        (
            wrapped(&self.station, NAME_MM, true, room_mm),
            wrapped(&self.model, TEXT_MM, false, room_mm),
            wrapped(address, TEXT_MM, is_bold, room_mm - 2.0),
        )
    }

    /// Height of the words over the pictures in a card with this room.
    fn head_mm(&self, room_mm: f64) -> f64 {
        let (name, model, address) = self.words(room_mm);
        3.0 + name.len() as f64 * NAME_MM * LEADING + (model.len() + address.len()) as f64 * LINE_MM + 2.0
    }

    /// Height of the pictures below the words.
    fn pictures_mm(&self, lettering: Lettering) -> f64 {
        let heights = self.pictures.iter().map(|(_, setting)| picture_height_mm(setting, lettering.0));
        heights.fold(0.0, f64::max)
    }

    fn height_mm(&self, room_mm: f64, lettering: Lettering) -> f64 {
        self.head_mm(room_mm) + self.pictures_mm(lettering)
    }

    fn width_mm(&self) -> f64 {
        let pictures: f64 =
            self.pictures.iter().map(|(label, setting)| picture_width_mm(label, setting) + GAP_MM).sum();
        pictures - GAP_MM + 6.0
    }

    fn draw(&self, area: Area, lettering: Lettering) -> Group {
        let mut group = Group::of_element(
            "switch-card",
            self.station.clone(),
            format!("{}: {}", self.station, self.words),
        );
        group.rectangle(Layer::Frame, area, 1.0, Some(Stroke::solid(Ink::Outline, Pen::Thin)), None);
        let (left, room) = (area.x + 3.0, area.width - 6.0);
        let (name, model, address) = self.words(room);
        let mut y = area.y + 1.4;
        for line in name {
            y += NAME_MM * LEADING;
            group.text(Layer::Lettering, Text::new((left, y), line, NAME_MM).bold());
        }
        for line in model {
            y += LINE_MM;
            group.text(Layer::Lettering, Text::new((left, y), line, TEXT_MM).ink(Ink::Quiet));
        }
        let ink = if self.double.is_some() { Ink::Paper } else { Ink::Text };
        if self.double.is_some() {
            let strip = Area::new(left, y + 1.0, room, address.len() as f64 * LINE_MM + 0.8);
            group.rectangle(Layer::Trouble, strip, 0.0, None, Some(Ink::Trouble));
        }
        for line in address {
            y += LINE_MM;
            let mut text = Text::new((left + if ink == Ink::Paper { 1.0 } else { 0.0 }, y), line, TEXT_MM);
            text.bold = self.double.is_some();
            group.text(Layer::Lettering, text.ink(ink));
        }
        let mut x = left;
        let top = area.bottom() - self.pictures_mm(lettering);
        for (label, setting) in &self.pictures {
            group.group(switch_picture(label, setting, (x, top), lettering.0));
            x += picture_width_mm(label, setting) + GAP_MM;
        }
        group
    }
}
