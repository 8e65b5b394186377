//! German for the texts that the assessment gives in English.

/// The German of a text, or the text itself where it is a name.
pub(super) fn text(english: &str) -> String {
    if let Some(known) = exact(english) {
        return known.to_string();
    }
    for (tail, german) in TAILS {
        if let Some(head) = english.strip_suffix(tail) {
            return format!("{}{german}", text(head).replace(" at ", " bei "));
        }
    }
    english.to_string()
}

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
];

/// Whole texts.
const PAIRS: &[(&str, &str)] = &[
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
    fn remarks_behind_names_are_said_in_german() {
        assert_eq!(text("flex-1.0 at 40 °C, upper tolerance"), "flex-1.0 bei 40 °C, obere Toleranz");
    }
}
