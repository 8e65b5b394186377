//! Which symptom is meant.

use super::{Symptom, all};
use std::collections::{BTreeMap, BTreeSet};

/// What somebody may mean.
#[derive(Debug)]
pub enum Meant {
    /// One symptom.
    Sure(&'static Symptom),
    /// One of these, the nearest first.
    Unsure(Vec<&'static Symptom>),
    /// None.
    Nothing,
}

/// Most symptoms that are offered.
const MOST: usize = 3;
/// A symptom is meant from this nearness on, if the next is further by `LEAD` (tried on what installers say).
const SURE: f64 = 0.6;
const LEAD: f64 = 0.05;
/// Less near ones are not offered.
const NEAR: f64 = 0.2;
/// How much of the nearness is the share of a way of saying it that was said; the rest is the share of what was said that it explains.
const OF_THE_WAY: f64 = 0.6;
/// What a word counts that is said the other way round: denied where it is affirmed, or affirmed where it is denied.
const AGAINST: f64 = 1.0;

/// What is meant by what somebody says.
pub fn meant_by(text: &str) -> Meant {
    let weights = Weights::new();
    let said = words(text);
    let mut scored: Vec<(f64, &'static Symptom)> =
        all().iter().map(|symptom| (weights.nearness(symptom, &said), symptom)).collect();
    scored.sort_by(|a, b| b.0.total_cmp(&a.0));
    // Danger is danger, whatever burns.
    let is_danger = scored.first().is_some_and(|(score, symptom)| {
        *score >= NEAR && all().first().is_some_and(|danger| std::ptr::eq(danger, *symptom))
    });
    if !is_danger && said.iter().any(|(word, _)| FOREIGN.iter().any(|foreign| meaning(foreign) == *word)) {
        return Meant::Nothing;
    }
    match scored[..] {
        [(best, symptom), (next, _), ..] if best >= SURE && best - next >= LEAD => Meant::Sure(symptom),
        _ => {
            let near = scored.into_iter().filter(|(score, _)| *score >= NEAR).take(MOST);
            let near: Vec<&Symptom> = near.map(|(_, symptom)| symptom).collect();
            if near.is_empty() { Meant::Nothing } else { Meant::Unsure(near) }
        }
    }
}

/// A word that was said: what it is, and whether it is denied.
type Word = (String, bool);

/// How much each word counts.
struct Weights {
    of: BTreeMap<String, f64>,
}

impl Weights {
    fn new() -> Self {
        let mut symptoms_with: BTreeMap<String, usize> = BTreeMap::new();
        for symptom in all() {
            let ways = symptom.told.iter().copied().flatten();
            let own: BTreeSet<String> = ways.flat_map(|way| words(way)).map(|(word, _)| word).collect();
            own.into_iter().for_each(|word| *symptoms_with.entry(word).or_default() += 1);
        }
        let count = all().len() as f64;
        let of = symptoms_with.into_iter().map(|(word, with)| (word, (1.0 + count / with as f64).ln()));
        Weights { of: of.collect() }
    }

    /// Words that no symptom has say nothing.
    fn weight(&self, word: &Word) -> f64 {
        self.of.get(&word.0).copied().unwrap_or(0.0)
    }

    fn nearness(&self, symptom: &Symptom, said: &BTreeSet<Word>) -> f64 {
        let sum = |words: &BTreeSet<Word>| words.iter().map(|word| self.weight(word)).sum::<f64>();
        let of_all_said = sum(said);
        let near = |way: &str| {
            let way = words(way);
            let both = sum(&way.intersection(said).cloned().collect());
            let turned: BTreeSet<Word> = way.iter().map(|(word, denied)| (word.clone(), !denied)).collect();
            let against = sum(&turned.intersection(said).cloned().collect());
            let (of_way, of_said) = (sum(&way).max(1e-9), of_all_said.max(1e-9));
            let counts = (both - AGAINST * against).max(0.0);
            OF_THE_WAY * counts / of_way + (1.0 - OF_THE_WAY) * counts / of_said
        };
        symptom.told.iter().copied().flatten().map(|way| near(way)).fold(0.0, f64::max)
    }
}

/// Words of what no door-entry system on a bus has: whoever says one of them asks of something else.
const FOREIGN: &[&str] = &[
    "wifi",
    "wlan",
    "internet",
    "router",
    "email",
    "website",
    "television",
    "tv",
    "fernseher",
    "lift",
    "elevator",
    "aufzug",
    "dishwasher",
];

/// Words that deny the next one that matters.
const DENYING: &[&str] = &[
    "no", "not", "never", "without", "cannot", "cant", "wont", "nothing", "none", "missing", "kein", "keine",
    "keinen", "keiner", "ohne", "nie", "nichts", "fehlt",
];
/// German words that deny the one before as well.
const DENYING_BEFORE: &[&str] = &["nicht", "nichts", "fehlt", "missing"];
/// Words that say nothing of what is wrong.
const FILLING: &[&str] = &[
    "the",
    "a",
    "an",
    "is",
    "when",
    "if",
    "it",
    "of",
    "to",
    "in",
    "on",
    "at",
    "as",
    "does",
    "do",
    "did",
    "why",
    "my",
    "and",
    "but",
    "then",
    "be",
    "are",
    "was",
    "has",
    "have",
    "there",
    "i",
    "you",
    "we",
    "they",
    "his",
    "her",
    "its",
    "their",
    "any",
    "can",
    "with",
    "for",
    "from",
    "that",
    "this",
    "just",
    "still",
    "whole",
    "anything",
    "somebody",
    "someone",
    "soon",
    "so",
    "before",
    "somewhere",
    "over",
    "jemand",
    "mir",
    "mich",
    "uns",
    "sehr",
    "noch",
    "ganze",
    "ganzen",
    "ganzer",
    "mehr",
    "sobald",
    "ich",
    "von",
    "können",
    "kann",
    "hat",
    "trotz",
    "get",
    "gets",
    "got",
    "me",
    "our",
    "us",
    "very",
    "really",
    "only",
    "one",
    "der",
    "die",
    "das",
    "ein",
    "eine",
    "ist",
    "wenn",
    "es",
    "im",
    "am",
    "und",
    "aber",
    "warum",
    "den",
    "dem",
    "sie",
    "beim",
    "bei",
    "nur",
    "wird",
    "sich",
    "man",
    "auf",
    "zu",
];
/// Words that mean the same here.
const SAME: &[(&str, &[&str])] = &[
    ("restart", &["reboot", "reset", "restarting", "rebooting"]),
    ("panel", &["keypad", "gatepost"]),
    ("fire", &["flames", "flame", "burns"]),
    ("brennt", &["feuer", "brand"]),
    ("ständig", &["dauernd", "laufend", "andauernd"]),
    ("keeps", &["constantly", "always", "continually"]),
    ("call", &["called", "calling", "calls", "rung"]),
    ("ring", &["rings", "ringing", "chime", "chimes"]),
    ("speech", &["audio", "sound", "voice", "talk", "talking", "speak"]),
    ("hear", &["heard", "hears"]),
    ("picture", &["image", "video", "pictures"]),
    ("screen", &["monitor", "display", "bildschirm"]),
    ("bell", &["button", "klingelknopf"]),
    ("pressed", &["press", "presses", "pressing", "push"]),
    ("station", &["handset", "phone", "unit"]),
    ("dark", &["black", "blank"]),
    ("hum", &["humming", "hums"]),
    ("buzz", &["buzzing", "buzzes"]),
    ("flicker", &["flickering", "flickers", "blinking", "flashes"]),
    ("release", &["releases", "unlock", "unlocks", "released"]),
    ("strike", &["latch"]),
    ("cable", &["wire", "wiring", "cables", "wires"]),
    ("old", &["existing"]),
    ("stay", &["keep", "reuse", "remain", "stays"]),
    ("flat", &["apartment", "dwelling"]),
    ("neighbour", &["neighbor"]),
    ("everything", &["system", "building", "entire"]),
    ("klingeln", &["klingelt", "läutet", "läuten"]),
    ("leitung", &["draht", "drähte", "kabel", "leitungen"]),
    ("stock", &["stockwerk", "etage", "geschoss"]),
    ("batterie", &["akku"]),
    ("tür", &["haustür", "eingangstür", "türe"]),
    ("blackout", &["outage"]),
];

/// The words that matter, each with whether it is denied.
fn words(text: &str) -> BTreeSet<Word> {
    let lower = text
        .to_lowercase()
        .replace('’', "'")
        .replace("can't", "cannot")
        .replace("won't", "not")
        .replace("n't", " not");
    let all: Vec<&str> =
        lower.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let mut found: Vec<Word> = Vec::new();
    let mut denied = false;
    for word in all {
        if DENYING_BEFORE.contains(&word)
            && let Some(before) = found.last_mut()
        {
            before.1 = true;
            continue;
        }
        if DENYING.contains(&word) || word == "nicht" {
            denied = true;
            // "Nothing works": what works not is everything.
            if word == "nothing" {
                found.push((String::from("everything"), false));
            }
            continue;
        }
        if FILLING.contains(&word) {
            continue;
        }
        found.push((meaning(word), denied));
        denied = false;
    }
    found.into_iter().collect()
}

/// One word for all that mean the same, without the ending that changes with its place in a sentence.
fn meaning(word: &str) -> String {
    let same = |word: &str| {
        SAME.iter()
            .find(|(one, others)| *one == word || others.contains(&word))
            .map(|(one, _)| one.to_string())
    };
    let stemmed = stem(word);
    same(word).or_else(|| same(&stemmed)).map_or(stemmed, |one| stem(&one))
}

/// A word without its ending.
fn stem(word: &str) -> String {
    for ending in ["ing", "ed", "es", "s", "en", "t"] {
        if let Some(stem) = word.strip_suffix(ending)
            && stem.chars().count() >= 4
        {
            return stem.trim_end_matches('e').to_string();
        }
    }
    word.trim_end_matches('e').to_string()
}
