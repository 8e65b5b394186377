//! What people say when something does not work: what to measure first, and which findings it may come of.

use latchline_finding::Language;
use std::collections::BTreeSet;

/// A symptom as people tell it.
#[derive(Debug)]
pub struct Symptom {
    /// What it is called: English, German.
    title: [&'static str; 2],
    /// Ways in which people say it, in English and in German, in small letters.
    told: [&'static [&'static str]; 2],
    /// What to measure first: English, German.
    measure: [&'static str; 2],
    /// Codes of what it may come of, likeliest first (common practice, no source).
    pub codes: &'static [&'static str],
}

impl Symptom {
    /// What it is called.
    pub fn title(&self, language: Language) -> &'static str {
        crate::row::of(self.title, language)
    }

    /// What to measure first.
    pub fn measure(&self, language: Language) -> &'static str {
        crate::row::of(self.measure, language)
    }
}

/// Most symptoms that one description can mean.
const MOST: usize = 3;
/// Share of the words of a way of saying it that must be there.
const ENOUGH: f64 = 0.6;

/// The symptoms that are meant by what somebody says, likeliest first.
pub fn meant_by(text: &str) -> Vec<&'static Symptom> {
    let said = words(text);
    let mut scored: Vec<(f64, &Symptom)> = SYMPTOMS
        .iter()
        .map(|symptom| {
            let ways = symptom.told.iter().copied().flatten();
            let score = ways.map(|way| share(&words(way), &said)).fold(0.0, f64::max);
            (score, symptom)
        })
        .filter(|(score, _)| *score >= ENOUGH)
        .collect();
    scored.sort_by(|a, b| b.0.total_cmp(&a.0));
    scored.into_iter().take(MOST).map(|(_, symptom)| symptom).collect()
}

/// The share of some words that are said; where several ways are said whole the longer one is nearer to what is meant.
fn share(way: &BTreeSet<String>, said: &BTreeSet<String>) -> f64 {
    let found = way.iter().filter(|word| said.contains(*word)).count();
    found as f64 / way.len().max(1) as f64 + 0.01 * found as f64
}

/// The words that matter, without their endings.
fn words(text: &str) -> BTreeSet<String> {
    const FILLING: &[&str] = &[
        "the", "a", "an", "is", "when", "it", "of", "to", "in", "on", "does", "do", "why", "my", "and", "at",
        "be", "are", "der", "die", "das", "ein", "eine", "ist", "wenn", "es", "im", "am", "und", "warum",
        "den", "dem",
    ];
    let lower = text.to_lowercase().replace('’', "'").replace("n't", " not");
    lower
        .split(|sign: char| !sign.is_alphanumeric())
        .filter(|word| !word.is_empty() && !FILLING.contains(word))
        .map(stem)
        .collect()
}

/// A word without the ending that changes with its place in a sentence.
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

/// Every symptom.
pub static SYMPTOMS: &[Symptom] = &[
    Symptom {
        title: ["A station restarts when the door opens", "Eine Station startet neu, wenn die Tür öffnet"],
        told: [
            &[
                "restarts when the door opens",
                "last screen restarts",
                "screen restarts",
                "station reboots",
                "reboots on release",
                "resets when lock releases",
                "screen goes black when the door opens",
            ],
            &[
                "startet neu wenn die tür öffnet",
                "bildschirm startet neu",
                "station startet neu",
                "stürzt beim öffnen ab",
            ],
        ],
        measure: [
            "The voltage at that station's terminals in standby, and again while the door is held released. If it falls below what the model needs, go back along the run and find where it falls most.",
            "Die Spannung an den Klemmen dieser Station in Ruhe und noch einmal, während die Tür freigegeben ist. Fällt sie unter das, was das Modell braucht, am Strang zurückgehen und suchen, wo am meisten verloren geht.",
        ],
        codes: &[
            "voltage-too-low",
            "thin-margin",
            "supply-overloaded",
            "port-overloaded",
            "trip-below-legitimate-current",
            "start-up-dip",
        ],
    },
    Symptom {
        title: ["There is no picture, or a poor one", "Kein Bild oder ein schlechtes"],
        told: [
            &[
                "no picture",
                "no video",
                "picture is poor",
                "snow on the screen",
                "picture flickers",
                "black screen but speech works",
                "ghost picture",
            ],
            &["kein bild", "schlechtes bild", "bild flackert", "kein video"],
        ],
        measure: [
            "With the power off, count the terminators of that chain: one, on its last station. Then the loop resistance of the run with the far end bridged, and its capacitance with the far end open; both are on the commissioning sheet.",
            "Spannungsfrei die Abschlüsse dieser Kette zählen: einer, an der letzten Station. Dann den Schleifenwiderstand des Strangs bei gebrücktem fernem Ende und seine Kapazität bei offenem; beide stehen auf dem Inbetriebnahmeblatt.",
        ],
        codes: &[
            "signal-too-weak",
            "terminator-missing",
            "terminator-doubled",
            "terminator-misplaced",
            "signal-notch",
            "signal-ripple",
            "supply-shorts-signal",
            "line-constants-missing",
        ],
    },
    Symptom {
        title: ["Two stations ring, or the wrong one", "Zwei Stationen läuten, oder die falsche"],
        told: [
            &[
                "rings twice",
                "two flats ring",
                "wrong flat rings",
                "wrong station rings",
                "neighbour rings",
                "both ring",
            ],
            &[
                "läutet doppelt",
                "zwei wohnungen läuten",
                "falsche wohnung läutet",
                "es klingelt beim nachbarn",
                "klingelt doppelt",
            ],
        ],
        measure: [
            "Nothing yet: read the switches of both stations, and hold the list of devices that the system itself finds against the plan: latchline addresses SITE --found LIST.",
            "Noch nichts: die Schalter beider Stationen ablesen und die Liste der Geräte, die das System selbst findet, gegen den Plan halten: latchline addresses SITE --found LISTE.",
        ],
        codes: &[
            "address-duplicate",
            "address-reserved",
            "address-not-expressible",
            "two-main-entrances",
            "extension-without-room",
        ],
    },
    Symptom {
        title: [
            "A station does not ring or cannot be called",
            "Eine Station läutet nicht oder ist nicht erreichbar",
        ],
        told: [
            &[
                "does not ring",
                "no ring",
                "cannot be called",
                "flat is not found",
                "station missing",
                "not found",
            ],
            &["läutet nicht", "klingelt nicht", "nicht erreichbar", "station fehlt", "wird nicht gefunden"],
        ],
        measure: [
            "The voltage at its terminals in standby. With voltage there, its switches; without, the terminals of the station before it on the run.",
            "Die Spannung an ihren Klemmen in Ruhe. Ist Spannung da, ihre Schalter; wenn nicht, die Klemmen der Station davor am Strang.",
        ],
        codes: &[
            "address-duplicate",
            "dwelling-without-entrance",
            "entrance-calls-nobody",
            "call-across-buses",
            "voltage-too-low",
            "silenced-group",
        ],
    },
    Symptom {
        title: ["A lock does not release", "Ein Schloss öffnet nicht"],
        told: [
            &[
                "lock does not release",
                "door does not open",
                "lock clicks but does not open",
                "strike does not work",
                "lock buzzes",
                "gate does not open",
                "lock is weak",
            ],
            &[
                "schloss öffnet nicht",
                "tür geht nicht auf",
                "türöffner summt nur",
                "schloss ist schwach",
                "tor öffnet nicht",
            ],
        ],
        measure: [
            "The voltage at the lock's own terminals while it is released, with the lock connected. Right there and the lock stays shut: the lock. Too low: its cable and joints, then what feeds it. None: the relay contact.",
            "Die Spannung an den Klemmen des Schlosses während der Freigabe, mit angeschlossenem Schloss. Stimmt sie und es öffnet nicht: das Schloss. Zu niedrig: seine Leitung und Klemmstellen, dann die Speisung. Keine: der Relaiskontakt.",
        ],
        codes: &[
            "lock-voltage-too-low",
            "lock-feed-missing",
            "lock-current-kind",
            "lock-contact-wiring",
            "lock-output-overloaded",
            "relay-overloaded",
            "lock-outputs-exceeded",
        ],
    },
    Symptom {
        title: [
            "A door stays open, or opens for too short or too long",
            "Eine Tür bleibt offen oder öffnet zu kurz oder zu lang",
        ],
        told: [
            &[
                "door stays open",
                "lock stays released",
                "opens too short",
                "opens too long",
                "door does not lock",
            ],
            &["tür bleibt offen", "öffnet zu kurz", "öffnet zu lang", "tür schließt nicht"],
        ],
        measure: [
            "Whether there is voltage at the lock in standby, and for how many seconds after a release. A lock that opens without power needs voltage in standby; one that stays shut needs none.",
            "Ob in Ruhe Spannung am Schloss liegt, und für wie viele Sekunden nach einer Freigabe. Ein Schloss, das ohne Strom öffnet, braucht in Ruhe Spannung; eines, das geschlossen bleibt, keine.",
        ],
        codes: &[
            "lock-contact-wiring",
            "hold-time-overridden",
            "lock-duty-exceeded",
            "suppression-missing",
            "suppression-unsuitable",
        ],
    },
    Symptom {
        title: ["Everything is dark", "Alles ist dunkel"],
        told: [
            &[
                "nothing works",
                "everything is dark",
                "all dead",
                "whole building dead",
                "supply clicks",
                "supply goes on and off",
                "system keeps restarting",
            ],
            &[
                "nichts geht",
                "alles dunkel",
                "alles tot",
                "netzteil taktet",
                "anlage startet immer wieder neu",
            ],
        ],
        measure: [
            "The output of the supply with all runs taken off. If it stands, put the runs back one by one and read the current each time; the one with which it drops has the short or is too much.",
            "Den Ausgang des Netzteils, alle Stränge abgeklemmt. Steht die Spannung, die Stränge einzeln anklemmen und jedes Mal den Strom lesen; der, mit dem sie fällt, hat den Kurzschluss oder ist zu viel.",
        ],
        codes: &[
            "no-operating-point",
            "supply-overloaded",
            "trip-below-legitimate-current",
            "start-up-hiccups",
            "start-up-fails",
            "short-circuit-darkens",
        ],
    },
    Symptom {
        title: ["A floor or a riser is dark", "Ein Geschoss oder eine Steigleitung ist dunkel"],
        told: [
            &[
                "floor is dark",
                "whole floor dead",
                "riser is dead",
                "several flats dead",
                "all on one run are missing",
            ],
            &["stockwerk ist dunkel", "etage tot", "steigleitung tot", "mehrere wohnungen tot"],
        ],
        measure: [
            "The voltage at the port of that run, then at its first station. Voltage at the port and none at the first station: the cable between them.",
            "Die Spannung am Abgang dieses Strangs, dann an seiner ersten Station. Am Abgang da und an der ersten Station nicht: die Leitung dazwischen.",
        ],
        codes: &[
            "silenced-group",
            "port-overloaded",
            "short-circuit-not-detected",
            "short-circuit-darkens",
            "chain-through-dwellings",
        ],
    },
    Symptom {
        title: ["It does not come up after a power cut", "Nach einem Stromausfall kommt es nicht wieder"],
        told: [
            &[
                "does not come up after a power cut",
                "does not start after power failure",
                "does not start",
                "stays off after power returns",
            ],
            &["kommt nach stromausfall nicht wieder", "startet nicht", "bleibt nach stromausfall aus"],
        ],
        measure: [
            "The voltage at the supply while everything boots. If it collapses and returns again and again, take half of the runs off and switch on; then add them.",
            "Die Spannung am Netzteil, während alles hochläuft. Bricht sie immer wieder zusammen, die Hälfte der Stränge abklemmen und einschalten; dann dazunehmen.",
        ],
        codes: &[
            "start-up-fails",
            "start-up-hiccups",
            "start-up-dip",
            "supply-overloaded",
            "charger-too-small",
        ],
    },
    Symptom {
        title: ["The battery does not last", "Die Batterie hält nicht"],
        told: [
            &["battery does not last", "battery empty", "dies during a power cut", "battery too short"],
            &["batterie hält nicht", "batterie leer", "fällt bei stromausfall aus"],
        ],
        measure: [
            "The current drawn from the battery in standby with mains off, and the battery's voltage under that load after an hour.",
            "Den Strom aus der Batterie in Ruhe ohne Netz, und die Spannung der Batterie unter dieser Last nach einer Stunde.",
        ],
        codes: &["battery-hours-short", "charger-too-small", "battery-end-voltage-low", "supply-too-hot"],
    },
    Symptom {
        title: [
            "It works by day and fails at night or in the cold",
            "Bei Tag geht es, bei Nacht oder Kälte nicht",
        ],
        told: [
            &["fails at night", "works by day", "fails in the cold", "only in winter", "lights dim at night"],
            &["nachts fällt es aus", "nur im winter", "bei kälte fällt es aus"],
        ],
        measure: [
            "The current of the door station by day and with its lights and heater on, and the voltage at the last station of its supply meanwhile.",
            "Den Strom der Türstation bei Tag und mit Beleuchtung und Heizung, und dabei die Spannung an der letzten Station ihres Netzteils.",
        ],
        codes: &[
            "voltage-too-low",
            "supply-overloaded",
            "light-output-overloaded",
            "heater-missing",
            "battery-hours-short",
        ],
    },
    Symptom {
        title: ["There is hum or noise, or no speech", "Es brummt oder rauscht, oder es gibt keine Sprache"],
        told: [
            &[
                "hum on the line",
                "noise",
                "no speech",
                "cannot hear",
                "speech is faint",
                "whistles",
                "crackles",
            ],
            &["brummt", "rauscht", "keine sprache", "sprache zu leise", "pfeift", "knistert"],
        ],
        measure: [
            "The insulation of each leg to earth and to the other, electronics disconnected; then follow the run where it lies beside mains.",
            "Die Isolation jeder Ader gegen Erde und gegen die andere, Elektronik abgeklemmt; dann dem Strang dort folgen, wo er neben Netzleitungen liegt.",
        ],
        codes: &[
            "beside-mains",
            "insulation-too-low",
            "signal-too-weak",
            "terminator-missing",
            "supply-shorts-signal",
        ],
    },
    Symptom {
        title: ["A supply or cable gets hot", "Ein Netzteil oder eine Leitung wird heiß"],
        told: [
            &["supply gets hot", "cable gets warm", "burning smell", "cupboard is hot"],
            &["netzteil wird heiß", "leitung wird warm", "es riecht verbrannt", "schrank ist heiß"],
        ],
        measure: [
            "Switch off first. Then the resistance of each run alone with its far end open: a run that is not open has a short.",
            "Zuerst abschalten. Dann den Widerstand jedes Strangs für sich bei offenem fernem Ende: Einer, der nicht offen ist, hat einen Kurzschluss.",
        ],
        codes: &[
            "short-circuit-not-cleared",
            "short-circuit-not-detected",
            "supply-too-hot",
            "supply-overloaded",
            "lock-duty-exceeded",
        ],
    },
];

#[cfg(test)]
mod tests {
    use super::*;

    fn first(text: &str) -> &'static str {
        meant_by(text).first().map_or("", |symptom| symptom.title(Language::English))
    }

    #[test]
    fn what_people_say_finds_its_symptom() {
        for (said, title) in [
            ("restarts when the door opens", "A station restarts when the door opens"),
            ("why does the last screen restart", "A station restarts when the door opens"),
            ("no picture", "There is no picture, or a poor one"),
            ("rings twice", "Two stations ring, or the wrong one"),
            ("lock does not release", "A lock does not release"),
            ("the lock doesn't release", "A lock does not release"),
            ("kein Bild", "There is no picture, or a poor one"),
            ("Bildschirm startet neu", "A station restarts when the door opens"),
            ("nothing works", "Everything is dark"),
        ] {
            assert_eq!(first(said), title, "{said}");
        }
        assert!(meant_by("purple elephants").is_empty());
        assert!(meant_by("").is_empty());
    }

    #[test]
    fn every_way_of_saying_it_leads_to_its_own_symptom_first_or_second() {
        for symptom in SYMPTOMS {
            for way in symptom.told.iter().copied().flatten() {
                let found = meant_by(way);
                assert!(found.iter().take(2).any(|one| std::ptr::eq(*one, symptom)), "{way}");
            }
        }
    }

    #[test]
    fn codes_of_symptoms_have_pages() {
        for code in SYMPTOMS.iter().flat_map(|symptom| symptom.codes) {
            assert!(crate::codes::of(code).is_some(), "{code}");
        }
    }
}
