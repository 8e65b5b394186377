//! What the program adds to names of the site file is a word of the language of the paper, and the same on every sheet.

use crate::door_wiring::OWN_MAINS;
use crate::{Made, interfaces, resolved, stamp};
use latchline_finding::{Language, Locale, Units};
use latchline_handover::{Cell, Options, Row};
use latchline_pack::cards::card_set;
use latchline_scene::{Group, Node, Scene};
use std::collections::BTreeSet;

const EVERY_LOCK: &str = include_str!("../../../drawing/src/wiring/every_lock.toml");

fn letters(group: &Group, found: &mut Vec<String>) {
    for node in &group.nodes {
        match node {
            Node::Group(group) => letters(group, found),
            Node::Text(text, _) => found.push(text.text.clone()),
            Node::Item(_) => {}
        }
    }
}

fn of_scenes<'s>(scenes: impl Iterator<Item = &'s Scene>, found: &mut Vec<String>) {
    for scene in scenes {
        found.extend([scene.title.clone(), scene.description.clone()]);
        letters(&scene.root, found);
    }
}

/// Every text of a pack in German, and every designation in both languages.
fn in_german(text: &str) -> (Vec<String>, Vec<[String; 2]>) {
    let made = Made::of(resolved(text));
    let options =
        Options { locale: Locale { language: Language::German, units: Units::Metric }, ..Options::default() };
    let stamp = stamp();
    let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
    let subject = &pack.subject;
    let mut found: Vec<String> = Vec::new();
    for table in &pack.tables {
        found.extend(table.notes.iter().cloned());
        for row in &table.rows {
            match row {
                Row::Heading(words) => found.push(words.clone()),
                Row::Cells(cells) => found.extend(cells.iter().map(|cell: &Cell| cell.words().to_string())),
            }
        }
    }
    let drawings = pack.drawings.iter().chain(&pack.labels);
    of_scenes(drawings.flat_map(|drawing| &drawing.sheets), &mut found);
    for block in card_set(subject).cards.iter().flat_map(|card| &card.blocks) {
        found.extend([block.designation.clone(), block.what.clone()]);
        found.extend(block.lines.iter().cloned());
        found.extend(block.steps.iter().map(|step| step.what.clone()));
    }
    let names =
        subject.wiring.items().into_iter().map(|item| {
            [Language::English, Language::German].map(|language| item.name(subject.site, language))
        });
    let names = names.collect();
    (found, names)
}

/// Whether a designation stands in a text as a whole.
fn stands_in(name: &str, text: &str) -> bool {
    text.match_indices(name).any(|(at, _)| {
        let is_of_word = |sign: char| sign.is_alphanumeric() || sign == '-' || sign == '/';
        let before = text[..at].chars().next_back();
        let after = text[at + name.len()..].chars().next();
        !before.is_some_and(is_of_word) && !after.is_some_and(is_of_word)
    })
}

#[test]
fn no_english_designation_is_left_on_german_paper() {
    let mut told_apart = BTreeSet::new();
    for text in [EVERY_LOCK, OWN_MAINS, interfaces::SITE] {
        let (found, names) = in_german(text);
        assert!(found.len() > 500);
        for [english, german] in names.iter().filter(|[english, german]| english != german) {
            told_apart.insert(
                english
                    .split_once('/')
                    .map(|(_, mark)| mark.trim_end_matches(|sign: char| sign.is_ascii_digit()).to_string()),
            );
            let left: Vec<&String> = found.iter().filter(|text| stands_in(english, text)).take(3).collect();
            assert!(left.is_empty(), "{english} instead of {german}: {left:?}");
            assert!(found.iter().any(|text| stands_in(german, text)), "{german} stands somewhere");
        }
        assert!(!found.iter().any(|text| text.contains("r(hot)") || text.contains("r(usual)")));
    }
    assert!(told_apart.len() > 8, "{told_apart:?}");
}

/// Two things of one site never have one designation, in either language.
#[test]
fn designations_are_told_apart_in_both_languages() {
    for text in [EVERY_LOCK, OWN_MAINS, interfaces::SITE] {
        let (_, names) = in_german(text);
        for language in 0..2 {
            let different: BTreeSet<&String> = names.iter().map(|name| &name[language]).collect();
            assert_eq!(different.len(), names.len());
        }
    }
}
