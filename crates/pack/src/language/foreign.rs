//! German for the texts that the assessment gives in English.

/// The German of a text, or the text itself where it is a name.
pub(super) fn text(english: &str) -> String {
    if let Some(known) = exact(english) {
        return known.to_string();
    }
    if let Some(counted) = counted(english) {
        return counted;
    }
    for (tail, german) in TAILS {
        if let Some(head) = english.strip_suffix(tail) {
            return format!("{}{german}", text(head).replace(" at ", " bei "));
        }
    }
    english.to_string()
}

/// "28 of 64 ostrel-v4": how many of how many of a model.
fn counted(english: &str) -> Option<String> {
    let (count, rest) = english.split_once(COUNTED)?;
    let (most, model) = rest.split_once(' ')?;
    let are_numbers = [count, most].iter().all(|text| text.bytes().all(|byte| byte.is_ascii_digit()));
    are_numbers.then(|| format!("{count} von {most} {model}"))
}

/// Between the two numbers of a count.
const COUNTED: &str = " of ";

fn exact(english: &str) -> Option<&'static str> {
    PAIRS.iter().find(|(known, _)| *known == english).map(|(_, german)| *german)
}

/// Remarks behind the names of parts.
const TAILS: &[(&str, &str)] = &[
    (" current and night_current", " current und night_current"),
    (" load at its rated voltage", " load bei Nennspannung"),
    (", lower end", ", unteres Ende"),
    (", upper end", ", oberes Ende"),
    (", upper tolerance", ", obere Toleranz"),
    (" current and 10 % (cold coil, tolerance)", " current und 10 % (kalte Spule, Toleranz)"),
    (" (from memory)", " (aus dem Gedächtnis)"),
    (", as quoted", ", nach Zitat"),
];

/// Whole texts.
const PAIRS: &[(&str, &str)] = &[
    // arguments of findings
    ("direct current", "Gleichstrom"),
    ("alternating current", "Wechselstrom"),
    ("opens without power", "öffnet ohne Strom"),
    ("stays shut without power", "bleibt ohne Strom zu"),
    ("normally open", "Schließer"),
    ("normally closed", "Öffner"),
    ("while it is released", "solange es freigegeben ist"),
    ("all the time it is shut", "solange es zu ist"),
    ("on an escape route", "an einem Fluchtweg"),
    ("tamper", "Sabotage"),
    ("duress", "Überfall"),
    ("door", "Tür offen"),
    ("fire", "Brand"),
    ("at a door", "an einer Tür"),
    ("indoors", "innen"),
    ("outdoors", "außen"),
    ("buried", "im Erdreich"),
    ("no rule known for the site's country", "keine Regel für das Land der Anlage bekannt"),
    ("loop", "Schleife"),
    ("insulation", "Isolation"),
    ("copper-clad aluminium, 10 % copper", "kupferplattiertes Aluminium, 10 % Kupfer"),
    ("copper-clad aluminium, 15 % copper", "kupferplattiertes Aluminium, 15 % Kupfer"),
    ("aluminium", "Aluminium"),
    ("building", "Gebäude"),
    ("dwelling", "Wohnung"),
    ("entrance", "Eingang"),
    ("extension", "Nebenstelle"),
    ("management", "Zentrale"),
    ("speech", "Sprache"),
    ("picture", "Bild"),
    ("speech and data", "Sprache und Daten"),
    // quantities
    ("loop resistance", "Schleifenwiderstand"),
    ("least voltage at lock", "kleinste Spannung am Schloss"),
    ("nominal voltage at lock", "Nennspannung am Schloss"),
    ("highest voltage at lock", "größte Spannung am Schloss"),
    ("least supply voltage", "kleinste nötige Speisespannung"),
    ("current of modules", "Strom der Module"),
    ("length of chain", "Länge der Kette"),
    ("current of light output", "Strom des Leuchtenausgangs"),
    ("power when hot", "Leistung in der Wärme"),
    ("capacity counted on", "angesetzte Kapazität"),
    ("battery current", "Batteriestrom"),
    ("standby hours", "Stunden in Ruhe"),
    ("capacity by annex", "Kapazität nach Anhang"),
    ("capacity by sum", "Kapazität nach Summe"),
    ("recharge hours", "Stunden zum Laden"),
    ("mains current", "Netzstrom"),
    ("heat", "Wärme"),
    // formulas with words
    (
        "V = V' - R I, or V' / (1 + R I / Vr) above rated voltage",
        "V = V' - R I, oder V' / (1 + R I / Vr) über der Nennspannung",
    ),
    ("t = H (Ce / (I H))^k, at most Ce / I", "t = H (Ce / (I H))^k, höchstens Ce / I"),
    ("r per metre", "r je Meter"),
    ("Ph = Pr (1 - s (t - tr)), not below 0", "Ph = Pr (1 - s (t - tr)), nicht unter 0"),
    ("I = sum of Ik", "I = Summe der Ik"),
    // inputs
    ("the line above", "die Zeile darüber"),
    ("the first line", "die erste Zeile"),
    ("length with its tolerance", "Länge mit ihrer Toleranz"),
    ("joints per conductor", "Verbindungen je Ader"),
    ("loop with nominal values", "Schleife mit Nennwerten"),
    ("modules of the entrance", "Module des Eingangs"),
    ("ageing, replaced at 80 %", "Alterung, Tausch bei 80 %"),
    ("lead-acid, by temperature", "Blei, nach Temperatur"),
    ("standby at the adverse corner", "Ruhe, alle Toleranzen dagegen"),
    ("standby, from the battery", "Ruhe, aus der Batterie"),
    ("half an hour of the largest load", "eine halbe Stunde der größten Last"),
    ("largest load, from the battery", "größte Last, aus der Batterie"),
    ("largest load with mains, and charging", "größte Last mit Netz, und Laden"),
    ("tolerance of the feed", "Toleranz der Speisung"),
    ("from its nominal to its lowest voltage", "von der Nenn- zur kleinsten Spannung"),
    ("1 if C / 20 >= I2, else 1.75", "1, wenn C / 20 >= I2, sonst 1,75"),
    (
        "lowest bus voltage at the station in any state",
        "kleinste Busspannung an der Station in allen Zuständen",
    ),
    // sources
    (
        "Kirchhoff's current law; all modules lit, as at night",
        "Kirchhoffs Knotenregel; alle Module beleuchtet, wie bei Nacht",
    ),
    ("Kirchhoff's current law; all lights on", "Kirchhoffs Knotenregel; alle Leuchten an"),
    ("count", "Anzahl"),
    ("Ohm's law; loop is both conductors", "Ohmsches Gesetz; Schleife ist Hin- und Rückleiter"),
    (
        "Kirchhoff's voltage law; lower bound for every lock that draws at most I up to Vr",
        "Kirchhoffs Maschenregel; untere Schranke für jedes Schloss, das bis Vr höchstens I zieht",
    ),
    (
        "what a meter should read, give or take its tolerances",
        "was ein Messgerät bis auf Toleranzen zeigen soll",
    ),
    ("a cable never raises the voltage", "eine Leitung hebt nie die Spannung"),
    ("the second line solved for the feed", "die zweite Zeile nach der Speisung aufgelöst"),
    (
        "IEEE 485, ageing and temperature (table from memory)",
        "IEEE 485, Alterung und Temperatur (Tabelle aus dem Gedächtnis)",
    ),
    (
        "linear derating as data sheets give it; held against the largest load with mains",
        "lineare Minderung wie in Datenblättern; gegen die größte Last mit Netz gehalten",
    ),
    ("conservation of energy", "Energieerhaltung"),
    ("Peukert's law in its rated-time form", "Peukerts Gesetz in der Form mit Nennzeit"),
    (
        "pattern of BS 5839-1, battery annex, for comparison with the capacity fitted; no demand on door entry",
        "Muster von BS 5839-1, Batterieanhang, zum Vergleich mit der eingebauten Kapazität; keine Forderung an Türsprechanlagen",
    ),
    (
        "pattern of NFPA 72 10.6.7, for comparison with the capacity fitted; no demand on door entry",
        "Muster von NFPA 72 10.6.7, zum Vergleich mit der eingebauten Kapazität; keine Forderung an Türsprechanlagen",
    ),
    (
        "four fifths back, charge factor 1.2 (common practice); 24 h after EN 54-4 (from memory)",
        "vier Fünftel zurück, Ladefaktor 1,2 (üblich); 24 h nach EN 54-4 (aus dem Gedächtnis)",
    ),
    ("single phase, root mean square", "einphasig, Effektivwert"),
    (
        "what does not leave as power stays in the cupboard",
        "was nicht als Leistung hinausgeht, bleibt im Schrank",
    ),
    ("common practice, no source", "üblich, keine Quelle"),
    // heights and panels
    (
        "beyond an obstruction deeper than 0.51 m at most 1.12 m (308.2.2); with one hand, at most 22 N (309.4, from memory)",
        "hinter einem Hindernis von mehr als 0,51 m höchstens 1,12 m (308.2.2); mit einer Hand, höchstens 22 N (309.4, aus dem Gedächtnis)",
    ),
    (
        "at least 0.3 m from an external return corner (from memory); in buildings other than dwellings 0.75 m to 1.20 m (volume 2, 4.30, as quoted)",
        "mindestens 0,3 m von einer Außenecke (aus dem Gedächtnis); in anderen als Wohngebäuden 0,75 m bis 1,20 m (Band 2, 4.30, nach Zitat)",
    ),
    (
        "bell pushes 0.40 m to 1.40 m (the same, as quoted)",
        "Klingeltaster 0,40 m bis 1,40 m (ebenda, nach Zitat)",
    ),
    (
        "more than 0.40 m from an inner corner; signals by sound and by sight (the same, as quoted)",
        "mehr als 0,40 m von einer Innenecke; Signale hörbar und sichtbar (ebenda, nach Zitat)",
    ),
    (
        "not in a corner; a prompt to speak that can be seen (the same, as quoted)",
        "nicht in einer Ecke; sichtbare Sprechaufforderung (ebenda, nach Zitat)",
    ),
    (
        "usable from a wheelchair (TEK17 section 12-4, guidance)",
        "vom Rollstuhl aus bedienbar (TEK17, Abschnitt 12-4, Anleitung)",
    ),
    (
        "shows by sound and by sight that it is active and connected; the key 5 can be felt (BR18 section 160)",
        "zeigt hörbar und sichtbar, dass sie eingeschaltet und verbunden ist; die Taste 5 ist tastbar (BR18, Abschnitt 160)",
    ),
    // rules for escape routes
    (
        "emergency exits used by people who know the door: lever handle or push pad, one action, no key",
        "Notausgänge für Ortskundige: Drücker oder Stoßplatte, ein Griff, kein Schlüssel",
    ),
    (
        "panic exits open to the public: a horizontal bar that releases under the push of a crowd",
        "Paniktüren für Ortsunkundige: waagerechte Stange, die unter dem Druck einer Menge freigibt",
    ),
    (
        "electrically controlled escape doors: a release terminal at the door, release on power loss and on fire alarm; a time delay in stages of 15 s and 180 s only where the authority allows it",
        "elektrisch gesteuerte Fluchttüren: Freigabeterminal an der Tür, Freigabe bei Stromausfall und Brandalarm; Verzögerung in Stufen von 15 s und 180 s nur, wo die Behörde sie erlaubt",
    ),
    (
        "the door opens from inside with one action, without a key, without power and without the entry system",
        "die Tür öffnet von innen mit einem Griff, ohne Schlüssel, ohne Strom und ohne die Anlage",
    ),
    (
        "sensor-released locks: unlock on the sensor, on loss of power and on fire alarm; a marked button 1016 to 1219 mm high within 1525 mm of the door unlocks for 30 s independently of the entry system",
        "sensorgesteuerte Schlösser: Freigabe durch Sensor, bei Stromausfall und Brandalarm; ein beschrifteter Taster in 1016 bis 1219 mm Höhe, höchstens 1525 mm von der Tür, gibt unabhängig von der Anlage 30 s frei",
    ),
    (
        "delayed egress: release within 15 s (30 s if the authority allows) of a push of at most 67 N held at most 3 s; unlock on fire alarm and on loss of power",
        "verzögerter Ausgang: Freigabe binnen 15 s (30 s, wenn die Behörde es erlaubt) nach einem Druck von höchstens 67 N über höchstens 3 s; Freigabe bei Brandalarm und Stromausfall",
    ),
];

#[cfg(test)]
mod tests {
    use super::{PAIRS, TAILS, text};
    use std::path::Path;

    #[allow(clippy::disallowed_methods, reason = "a test of the sources")]
    /// Everything under a folder that ends like this, as one text with broken string literals joined.
    fn texts_under(folder: &Path, ending: &str, all: &mut String) {
        let entries = std::fs::read_dir(folder).expect("the folder is there");
        let mut paths: Vec<_> = entries.map(|entry| entry.expect("an entry").path()).collect();
        paths.sort();
        for path in paths {
            if path.is_dir() {
                texts_under(&path, ending, all);
            } else if path.extension().is_some_and(|known| known == ending) {
                let text = std::fs::read_to_string(&path).expect("a text");
                let mut pieces = text.split("\\\n");
                all.push_str(pieces.next().unwrap_or_default());
                pieces.for_each(|piece| all.push_str(piece.trim_start()));
            }
        }
    }

    /// A text that the program no longer says would stay English without a word: every one is still there.
    #[test]
    fn every_text_is_still_said_somewhere() {
        let crates = Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the folder of all crates");
        let mut program = String::new();
        for name in ["assess", "circuit", "finding", "network", "site"] {
            texts_under(&crates.join(name).join("src"), "rs", &mut program);
        }
        texts_under(&crates.join("site").join("src"), "toml", &mut program);
        let said = |text: &str| program.contains(text);
        let literal =
            |text: &str| said(&format!("\"{text}\"")) || said(&format!("\"{}\"", text.replace(' ', "-")));
        let gone: Vec<&str> =
            PAIRS.iter().map(|(english, _)| *english).filter(|text| !literal(text)).collect();
        assert!(gone.is_empty(), "said nowhere: {gone:?}");
        let gone: Vec<&str> = TAILS.iter().map(|(english, _)| *english).filter(|tail| !said(tail)).collect();
        assert!(gone.is_empty(), "said nowhere: {gone:?}");
    }

    #[test]
    fn counts_are_said_in_german_and_names_left_alone() {
        assert_eq!(text("28 of 64 ostrel-v4"), "28 von 64 ostrel-v4");
        assert_eq!(text("Court of Hawthorn house"), "Court of Hawthorn house");
    }

    #[test]
    fn remarks_behind_names_are_said_in_german() {
        assert_eq!(text("flex-1.0 at 40 °C, upper tolerance"), "flex-1.0 bei 40 °C, obere Toleranz");
        assert_eq!(text("EN 54-4 (from memory)"), "EN 54-4 (aus dem Gedächtnis)");
    }
}
