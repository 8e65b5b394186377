//! Switches in a line: what is set, small enough for the stations of a landing to stand on one card. The same at true
//! scale stands on the switch cards.

use super::lines::{TEXT_MM, letter, middle, thin};
use crate::language::{Lettering, Phrase, Word};
use latchline_scene::font::text_width_mm;
use latchline_scene::palette::Ink;
use latchline_scene::svg::on_circle;
use latchline_scene::{Area, Group, Layer, Point};
use latchline_site::addresses::SwitchSetting;

/// Height of a line of switches.
pub(super) const LINE_HEIGHT_MM: f64 = 7.2;
/// Height of a body.
const BODY_MM: f64 = 6.6;
/// From one switch of a bank to the next.
const PITCH_MM: f64 = 2.0;
/// From one key to the next.
const KEY_MM: f64 = 5.6;
const GAP_MM: f64 = 1.0;

/// The switches of a setting behind the label that is printed beside them, and the width that they take.
pub(super) fn small_switch(label: &str, setting: &SwitchSetting, lettering: Lettering) -> (Group, f64) {
    let mut group = Group::new("switch");
    group.role.title = Some(format!("{label}: {}", lettering.setting(setting)));
    let mut line = Line { x: 0.0, group };
    line.words(label, true);
    match setting {
        SwitchSetting::Rotary { positions, at } => at.iter().for_each(|at| line.dial(*positions, *at)),
        SwitchSetting::Dip { first_switch, on } => {
            line.bank(on, false);
            let numbers: Vec<String> = (*first_switch..)
                .zip(on)
                .filter(|(_, on)| **on)
                .map(|(number, _)| number.to_string())
                .collect();
            line.words(
                &match numbers.is_empty() {
                    true => lettering.word(Word::AllOff).to_string(),
                    false => lettering.say(&Phrase::SwitchesOn { numbers: &numbers.join(" ") }),
                },
                true,
            );
        }
        SwitchSetting::Jumpers { fitted } => {
            line.bank(fitted, true);
            let numbers: Vec<String> = (1..)
                .zip(fitted)
                .filter(|(_, on)| **on)
                .map(|(number, _): (usize, _)| number.to_string())
                .collect();
            let words = match numbers.is_empty() {
                true => lettering.word(Word::JumperOpen).to_string(),
                false => format!("{} {}", numbers.join(" "), lettering.word(Word::JumperFitted)),
            };
            line.words(&words, true);
        }
        SwitchSetting::Keyed { digits } => {
            digits.chars().for_each(|digit| line.key(digit));
            line.words(lettering.word(Word::KeyIn), false);
        }
    }
    (line.group, line.x)
}

/// Switches one behind the other.
struct Line {
    x: f64,
    group: Group,
}

impl Line {
    fn words(&mut self, words: &str, bold: bool) {
        letter(
            &mut self.group,
            (self.x, (BODY_MM - super::lines::line_mm(TEXT_MM)) / 2.0),
            words,
            TEXT_MM,
            bold,
        );
        self.x += text_width_mm(words, TEXT_MM, bold) + GAP_MM;
    }

    /// A rotary switch: a stroke for each position, an arrow to the one that is set, and that behind it.
    fn dial(&mut self, positions: u32, at: u32) {
        let centre = (self.x + BODY_MM / 2.0, BODY_MM / 2.0);
        self.group.circle(Layer::Device, centre, BODY_MM / 2.0, Some(thin()), Some(Ink::Inside));
        let angle = |position: u32| 90.0 - 360.0 * f64::from(position) / f64::from(positions.max(1));
        for position in 0..positions.min(16) {
            let [outer, inner] = [3.2, 2.6].map(|radius| on_circle(centre, radius, angle(position)));
            self.group.line(Layer::Device, outer, inner, thin());
        }
        let back = [140.0, -140.0].map(|turn| on_circle(centre, 1.6, angle(at) + turn));
        self.group.polygon(
            Layer::Device,
            vec![on_circle(centre, 2.6, angle(at)), back[0], back[1]],
            Ink::Text,
        );
        self.x += BODY_MM + GAP_MM;
        self.words(&format!("{at:X}"), true);
    }

    /// A bank, ON or fitted upward where a lever moves; a jumper covers both pins or none.
    fn bank(&mut self, on: &[bool], are_jumpers: bool) {
        let width = on.len() as f64 * PITCH_MM + 1.0;
        self.group.rectangle(
            Layer::Device,
            Area::new(self.x, 0.0, width, BODY_MM),
            0.3,
            Some(thin()),
            Some(Ink::Inside),
        );
        for (place, on) in on.iter().enumerate() {
            let centre = self.x + 0.5 + (place as f64 + 0.5) * PITCH_MM;
            if are_jumpers {
                self.jumper(centre, *on);
                continue;
            }
            let slot = Area::new(centre - 0.6, 0.9, 1.2, 4.8);
            self.group.rectangle(Layer::Device, slot, 0.0, Some(thin()), Some(Ink::Paper));
            let lever = Area::new(slot.x, if *on { slot.y } else { slot.y + 2.4 }, 1.2, 2.4);
            self.group.rectangle(Layer::Device, lever, 0.0, Some(thin()), Some(Ink::Text));
        }
        self.x += width + GAP_MM;
    }

    fn jumper(&mut self, centre: f64, is_fitted: bool) {
        if is_fitted {
            let block = Area::new(centre - 0.8, 1.0, 1.6, 5.0);
            self.group.rectangle(Layer::Device, block, 0.3, Some(thin()), Some(Ink::Text));
        } else {
            let pin = |at: Point, group: &mut Group| {
                group.circle(Layer::Device, at, 0.5, Some(thin()), Some(Ink::Paper))
            };
            pin((centre, 2.2), &mut self.group);
            pin((centre, 4.8), &mut self.group);
        }
    }

    fn key(&mut self, digit: char) {
        let key = Area::new(self.x, 0.5, KEY_MM - 0.8, BODY_MM - 1.0);
        self.group.rectangle(Layer::Device, key, 0.8, Some(middle()), Some(Ink::Inside));
        let inset = (key.width - text_width_mm(&digit.to_string(), TEXT_MM, true)) / 2.0;
        let top = (BODY_MM - super::lines::line_mm(TEXT_MM)) / 2.0;
        letter(&mut self.group, (key.x + inset, top), &digit.to_string(), TEXT_MM, true);
        self.x += KEY_MM;
    }
}
