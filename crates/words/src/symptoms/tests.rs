//! What installers say, and what they mean by it (common practice, no source).

use super::{Meant, all, meant_by};
use latchline_finding::Language;

fn sure(text: &str) -> &'static str {
    match meant_by(text) {
        Meant::Sure(symptom) => symptom.title(Language::English),
        Meant::Unsure(_) => "unsure",
        Meant::Nothing => "nothing",
    }
}

const OPENS: &str = "A station restarts when the door opens";
const CALLED: &str = "A station restarts when it is called";
const PICTURE: &str = "There is no picture, or a poor one";
const TWO: &str = "Two stations ring, or the wrong one";
/// The list that the system shows is compared with the plan: nothing is measured first.
const FEWER: &str = "The system finds fewer devices than planned";
const SILENT: &str = "A station does not ring or cannot be called";
const LOCK: &str = "A lock does not release";
const OPEN: &str = "A door stays open, or opens for too short or too long";
const ALL: &str = "Everything is dark";
const FLOOR: &str = "A floor or a riser is dark";
const POWER: &str = "It does not come up after a power cut";
const BATTERY: &str = "The battery does not last";
const NIGHT: &str = "It works by day and fails at night or in the cold";
const HUM: &str = "There is hum or noise";
const HOT: &str = "A supply or cable gets hot";
const SPEECH: &str = "It rings, but there is no speech";
const DEAD: &str = "One station is dead";
const FLICKER: &str = "A picture or light flickers, or comes and goes";
const MAGNET: &str = "A magnet does not let go";
const DANGER: &str = "Fire, smoke or an electric shock: not for this program";
const WATER: &str = "Water in a panel, box or cable";
const ITSELF: &str = "A station restarts by itself";
const OLD: &str = "Can the old cable stay?";
const MORE: &str = "How many more stations does the site carry?";

/// What is asked of something else gets no guess, and a question that another command answers leads there.
#[test]
fn what_is_not_ours_is_not_guessed_at() {
    for text in ["wifi does not work", "the wifi is dead", "das wlan geht nicht", "no internet"] {
        assert_eq!(sure(text), "nothing", "{text}");
    }
    for text in ["two more flats here", "two more flats", "how many more stations", "noch zwei wohnungen"] {
        assert_eq!(sure(text), MORE, "{text}");
    }
    let more = all().iter().find(|one| one.title(Language::English) == MORE).unwrap();
    assert!(more.measure(Language::English).contains("latchline headroom SITE"));
    assert_eq!(sure("which cable for the gate lock"), "Which cable for the lock?");
    assert_eq!(sure("welche leitung für das schloss"), "Which cable for the lock?");
    let old = all().iter().find(|one| one.title(Language::English) == OLD).unwrap();
    assert!(old.measure(Language::English).starts_with("latchline ask old-cable SITE says"));
}

#[test]
fn what_installers_say_finds_its_symptom() {
    let told = [
        ("restarts when the door opens", OPENS),
        ("the screen reboots when I release the door", OPENS),
        ("last screen restarts when called", CALLED),
        ("restarts when it rings", CALLED),
        ("monitor reboots when somebody rings", CALLED),
        ("no picture", PICTURE),
        ("there's no video but the speech works", PICTURE),
        ("snow on the screen", PICTURE),
        ("rings twice", TWO),
        ("the wrong flat rings", TWO),
        ("it rings at the neighbour", TWO),
        ("does not ring", SILENT),
        ("the flat doesn't ring", SILENT),
        ("one flat cannot be called", SILENT),
        ("lock does not release", LOCK),
        ("opener does nothing", LOCK),
        ("strike dead", LOCK),
        ("türöffner geht nicht", LOCK),
        ("summer geht nicht", LOCK),
        ("e-öffner brummt nur", LOCK),
        ("kein strom", ALL),
        ("screen goes dark at night", NIGHT),
        ("the lock doesn't release", LOCK),
        ("the strike only buzzes and doesn't open", LOCK),
        ("door stays open", OPEN),
        ("nothing works", ALL),
        ("the whole building is dead", ALL),
        ("the supply clicks on and off", ALL),
        ("a whole floor is dark", FLOOR),
        ("doesn't come up after a power cut", POWER),
        ("the battery doesn't last", BATTERY),
        ("fails at night", NIGHT),
        ("works by day but not in the cold", NIGHT),
        ("hum", HUM),
        ("humming on the line", HUM),
        ("crackles", HUM),
        ("the supply gets hot", HOT),
        ("rings but no speech", SPEECH),
        ("it rings but I can't hear the visitor", SPEECH),
        ("no sound", SPEECH),
        ("dead", DEAD),
        ("screen dark", DEAD),
        ("the screen stays black", DEAD),
        ("flickers", FLICKER),
        ("the picture comes and goes", FLICKER),
        ("magnet does not let go", MAGNET),
        ("the magnet holds when the fire alarm goes off", MAGNET),
        ("old cable", OLD),
        ("can the old bell wire stay", OLD),
        ("kein Bild", PICTURE),
        ("klingelt nicht", SILENT),
        ("es klingelt, aber keine Sprache", SPEECH),
        ("startet bei Ruf neu", CALLED),
        ("Magnet lässt nicht los", MAGNET),
        ("Schloss öffnet nicht", LOCK),
        ("gate buzzes but door stays shut", LOCK),
        ("the strike hums but nothing happens", LOCK),
        ("I press the key button and the door doesn't open", LOCK),
        ("the door won't unlock from the flat", LOCK),
        ("release works from the gate but not from the flats", LOCK),
        ("screen shows lines and snow", PICTURE),
        ("blurred picture in the top flats", PICTURE),
        ("only a blue screen, speech is fine", PICTURE),
        ("picture is black and white with ghosts", PICTURE),
        ("monitor turns itself off when someone presses the bell", CALLED),
        ("the top floor unit cuts out during a call", CALLED),
        ("station goes off as soon as I press the door release", OPENS),
        ("I press flat 4 and flat 14 rings", TWO),
        ("both our phones ring when next door is called", TWO),
        ("pressing the button does nothing, flat 7 stays silent", SILENT),
        ("visitors can't reach us", SILENT),
        ("the bell doesn't work in one apartment", SILENT),
        ("41 of 42 found", FEWER),
        ("station missing from the list", FEWER),
        ("the visitor can't hear me", SPEECH),
        ("voice is too quiet at the gate", SPEECH),
        ("handset is completely dead", DEAD),
        ("no lights on the monitor", DEAD),
        ("third floor is off, the rest works", FLOOR),
        ("all flats above the second floor are out", FLOOR),
        ("power supply keeps clicking", ALL),
        ("the whole system is down", ALL),
        ("whole system reboots over and over", ALL),
        ("after the blackout it never started again", POWER),
        ("dead since the power failure", POWER),
        ("backup battery is flat after two hours", BATTERY),
        ("the gate fails when it is freezing", NIGHT),
        ("doesn't work after dark", NIGHT),
        ("buzzing noise on the speech", HUM),
        ("there's a whistle when they talk", HUM),
        ("power supply is too hot to touch", HOT),
        ("smells burnt in the riser cupboard", HOT),
        ("works sometimes and sometimes not", FLICKER),
        ("loose contact somewhere", FLICKER),
        ("front door stays unlocked all day", OPEN),
        ("door relocks before I get there", OPEN),
        ("mag lock stays locked when the fire panel trips", MAGNET),
        ("can I reuse the telephone cable in the walls", OLD),
        ("der Türöffner summt, aber die Tür bleibt zu", LOCK),
        ("Tor summt, geht aber nicht auf", LOCK),
        ("Tür lässt sich von der Wohnung nicht öffnen", LOCK),
        ("Bildschirm bleibt dunkel", DEAD),
        ("Bild hat Streifen und Schnee", PICTURE),
        ("bei der falschen Wohnung klingelt es", TWO),
        ("es klingelt bei uns nicht", SILENT),
        ("Besucher hört mich nicht", SPEECH),
        ("Monitor geht aus, wenn jemand klingelt", CALLED),
        ("Gerät startet neu, sobald ich die Tür öffne", OPENS),
        ("der ganze dritte Stock ist ausgefallen", FLOOR),
        ("gar nichts geht mehr", ALL),
        ("nach dem Stromausfall startet die Anlage nicht mehr", POWER),
        ("Akku hält nur zwei Stunden", BATTERY),
        ("bei Frost geht das Tor nicht", NIGHT),
        ("es brummt in der Leitung", HUM),
        ("Netzteil ist sehr heiß", HOT),
        ("Haustür bleibt den ganzen Tag offen", OPEN),
        ("Magnet hält trotz Feueralarm", MAGNET),
        ("können die alten Drähte bleiben", OLD),
        ("printer on fire", DANGER),
        ("there's smoke coming out of the cupboard", DANGER),
        ("I got an electric shock from the door panel", DANGER),
        ("sparks when I touch the terminals", DANGER),
        ("der Drucker brennt", DANGER),
        ("Rauch kommt aus dem Netzteil", DANGER),
        ("water in the panel", WATER),
        ("the gate station is full of water", WATER),
        ("it fails whenever it rains", WATER),
        ("door panel is wet inside", WATER),
        ("Wasser in der Türstation", WATER),
        ("bei Regen fällt die Anlage aus", WATER),
        ("the monitor keeps rebooting", ITSELF),
        ("my screen restarts all the time", ITSELF),
        ("the handset restarts by itself at night", ITSELF),
        ("der Monitor startet ständig neu", ITSELF),
        ("Station startet immer wieder von selbst neu", ITSELF),
        ("one device is missing from the list", FEWER),
        ("3 devices missing after power up", FEWER),
        ("somebody got electrocuted", DANGER),
        ("burst pipe above the distributor", WATER),
        ("the door opens by itself", OPEN),
        ("eine Station fehlt in der Liste", FEWER),
    ];
    let wrong: Vec<(&str, &str, &str)> = told
        .into_iter()
        .map(|(said, meant)| (said, meant, sure(said)))
        .filter(|(_, meant, found)| meant != found)
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn what_may_be_several_is_asked_back_with_the_nearest() {
    let Meant::Unsure(near) = meant_by("restarts") else { panic!("{}", sure("restarts")) };
    let titles: Vec<&str> = near.iter().map(|one| one.title(Language::English)).collect();
    assert!(titles.len() <= 3 && titles.contains(&OPENS) && titles.contains(&CALLED), "{titles:?}");
    for nothing in ["purple elephants", ""] {
        assert!(matches!(meant_by(nothing), Meant::Nothing), "{nothing}");
    }
}

#[test]
fn every_way_of_saying_it_leads_to_its_own_symptom_or_offers_it() {
    for symptom in all() {
        for way in symptom.told.iter().copied().flatten() {
            let is_found = match meant_by(way) {
                Meant::Sure(one) => std::ptr::eq(one, symptom),
                Meant::Unsure(near) => near.iter().any(|one| std::ptr::eq(*one, symptom)),
                Meant::Nothing => false,
            };
            assert!(is_found, "{way}");
        }
        for language in [Language::English, Language::German] {
            assert!(
                matches!(meant_by(symptom.short(language)), Meant::Sure(one) if std::ptr::eq(one, symptom)),
                "{}",
                symptom.short(language)
            );
        }
    }
}

#[test]
fn codes_of_symptoms_have_pages_that_lead_with_what_to_measure() {
    for code in all().iter().flat_map(|symptom| symptom.codes) {
        let words = crate::codes::of(code).unwrap_or_else(|| panic!("no page of {code}"));
        for language in [Language::English, Language::German] {
            assert!(words.measure(language).is_some_and(|text| text.ends_with('.')), "{code}");
        }
    }
}
