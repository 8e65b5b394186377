//! What the keys of files are called on paper: for people who never see a file.

use crate::template::{Said, Say};
use latchline_finding::Language;

/// What stands for a part where a value is that of the whole site.
const WHOLE_SITE: &str = "conditions";

/// A key, its English, its German.
type Named = (&'static str, &'static str, &'static str);

/// Every key on whose value something that is judged can rest, in alphabetical order. A key that means different things in
/// different tables is named so that it fits them all.
const KEYS: &[Named] = &[
    ("accessory_current", "current for modules", "Strom für Module"),
    ("accessory_modules", "number of modules", "Anzahl der Module"),
    ("addresses", "addresses", "Adressen"),
    ("alarm_input_current", "current of an alarm input", "Strom eines Meldeeingangs"),
    ("alarm_inputs", "number of alarm inputs", "Anzahl der Meldeeingänge"),
    ("alarm_loop_resistance", "resistance of an alarm loop", "Widerstand der Meldeschleife"),
    ("all_call", "call to all", "Sammelruf"),
    ("ambient", "air temperature", "Lufttemperatur"),
    ("ambient_limit", "highest air temperature", "höchste Lufttemperatur"),
    ("battery", "battery", "Batterie"),
    ("boot", "load while starting", "Last beim Hochfahren"),
    ("boot_time", "time to start", "Dauer des Hochfahrens"),
    ("branches", "whether runs may branch", "ob Stränge abzweigen dürfen"),
    ("bridging_capacitance", "capacitance across the pair", "Kapazität zwischen den Adern"),
    (
        "bridging_resistance",
        "resistance across the pair to signals",
        "Widerstand zwischen den Adern für Signale",
    ),
    ("budget", "loss that is allowed", "erlaubte Dämpfung"),
    ("built_in_terminator", "built-in terminator", "eingebauter Abschluss"),
    ("buttons", "number of buttons", "Anzahl der Tasten"),
    ("call_duration", "duration of a call", "Dauer eines Rufs"),
    ("calls_per_hour", "calls in an hour", "Rufe je Stunde"),
    ("capacitance", "capacitance", "Kapazitätsbelag"),
    ("capacity", "capacity", "Kapazität"),
    ("cascade_depth", "depth of cascades", "Tiefe der Kaskade"),
    ("chains", "whether stations may be chained", "ob Stationen durchgeschleift werden dürfen"),
    ("charge_current", "charging current", "Ladestrom"),
    ("class", "class of the conductor", "Klasse des Leiters"),
    ("coated", "tinned strands", "verzinnte Drähte"),
    ("coil_inductance", "inductance of the coil", "Induktivität der Spule"),
    ("coldest_ambient", "lowest air temperature", "tiefste Lufttemperatur"),
    ("coldest_temperature", "lowest temperature of the conductors", "tiefste Leitertemperatur"),
    ("conductor_temperature_limit", "highest temperature of the conductor", "höchste Leitertemperatur"),
    ("consumption", "own consumption", "Eigenverbrauch"),
    ("converter", "whether it draws constant power", "ob es konstante Leistung zieht"),
    ("current", "current", "Strom"),
    ("current_rating", "current rating", "Strombelastbarkeit"),
    ("derating_per_kelvin", "derating by temperature", "Minderung je Kelvin"),
    ("directory", "size of the directory", "Größe des Verzeichnisses"),
    ("door_stations", "number of door stations", "Anzahl der Türstationen"),
    ("dropout_current", "current at which it drops out", "Strom, bei dem es abfällt"),
    ("duty_limit", "longest time under current", "längste Zeit unter Strom"),
    ("efficiency", "efficiency", "Wirkungsgrad"),
    ("end_allowance", "cable for making off", "Leitung zum Anschließen"),
    ("end_bus_voltage", "bus voltage when the battery is flat", "Busspannung bei leerer Batterie"),
    ("environments", "where it may be laid", "zulässige Umgebung"),
    ("family", "family", "Gerätefamilie"),
    ("feed", "direct or alternating current", "Gleich- oder Wechselstrom"),
    ("feed_choke", "choke in the feed", "Drossel in der Speisung"),
    (
        "foldback_from",
        "voltage from which the limit folds back",
        "Spannung, ab der die Begrenzung zurückfällt",
    ),
    ("gauge", "size of the conductor", "Leiterquerschnitt"),
    ("heater_extra", "load of the heater", "Last der Heizung"),
    ("highest_voltage", "highest voltage", "höchste Spannung"),
    ("hottest_temperature", "highest temperature of the conductors", "höchste Leitertemperatur"),
    ("inductance", "inductance", "Induktivitätsbelag"),
    ("input_capacitance", "input capacitance", "Eingangskapazität"),
    ("inrush_current", "inrush current", "Einschaltstrom"),
    ("inrush_limit", "limit of the inrush current", "Begrenzung des Einschaltstroms"),
    ("joint_resistance", "resistance of a joint", "Widerstand einer Verbindung"),
    ("kind", "kind", "Art"),
    ("least_standby_voltage", "lowest voltage in standby", "kleinste Spannung in Ruhe"),
    ("least_voltage", "lowest voltage", "kleinste Spannung"),
    ("length_tolerance", "tolerance of lengths", "Toleranz der Längen"),
    ("light_output_current", "current of the light output", "Strom des Lichtausgangs"),
    ("light_output_voltage", "voltage of the light output", "Spannung des Lichtausgangs"),
    ("limit_current", "current at which it limits", "Strom, bei dem es begrenzt"),
    ("limit_kind", "way of limiting the current", "Art der Strombegrenzung"),
    ("line", "line constants", "Leitungsbeläge"),
    ("load", "load", "Last"),
    ("load_tolerance", "tolerance of the load", "Toleranz der Last"),
    ("lock", "lock", "Schloss"),
    ("lock_output_ac", "alternating current at the lock output", "Wechselstrom am Schlossausgang"),
    ("lock_output_current", "current of the lock output", "Strom des Schlossausgangs"),
    ("lock_output_tolerance", "tolerance of the lock output", "Toleranz des Schlossausgangs"),
    ("lock_output_voltage", "voltage of the lock output", "Spannung des Schlossausgangs"),
    ("lock_outputs", "number of lock outputs", "Anzahl der Schlossausgänge"),
    ("longest_run", "longest run", "längster Strang"),
    ("loop_through", "way of looping through", "Art des Durchschleifens"),
    ("loss_tangent", "loss of the insulation", "Verluste der Isolation"),
    ("losses", "losses by frequency", "Dämpfung über der Frequenz"),
    ("mains_insulated", "insulation for mains voltage", "Isolation für Netzspannung"),
    ("mains_voltage", "mains voltage", "Netzspannung"),
    ("material", "metal of the conductor", "Leitermetall"),
    ("media", "picture and speech", "Bild und Sprache"),
    ("most_per_supply", "most stations on a supply", "Höchstzahl je Netzteil"),
    ("night_current", "current at night", "Strom bei Nacht"),
    ("night_extra", "load of the lights at night", "Last der Beleuchtung bei Nacht"),
    ("nominal_voltage", "nominal voltage", "Nennspannung"),
    ("output_capacitance", "output capacitance", "Ausgangskapazität"),
    ("output_power", "output power", "Ausgangsleistung"),
    ("output_resistance", "resistance of the output", "Widerstand des Ausgangs"),
    ("output_tolerance", "tolerance of the output", "Toleranz des Ausgangs"),
    ("output_voltage", "voltage of the output", "Spannung des Ausgangs"),
    ("outputs", "number of outputs", "Anzahl der Ausgänge"),
    ("overvoltage_tolerance", "voltage above the rated one", "Überspannung am Schloss"),
    ("pairs", "number of pairs", "Anzahl der Paare"),
    (
        "peukert_exponent",
        "loss of capacity when discharged fast",
        "Kapazitätsverlust bei schneller Entladung",
    ),
    ("port_current_limit", "current limit of a port", "Stromgrenze eines Abgangs"),
    ("port_limit_kind", "way in which a port limits", "Art der Begrenzung eines Abgangs"),
    ("port_resistance", "resistance from input to port", "Widerstand vom Eingang zum Abgang"),
    ("port_retry_pause", "pause before a port tries again", "Pause, bis ein Abgang wieder einschaltet"),
    ("port_trip_delay", "delay before a port trips", "Verzögerung, bis ein Abgang abschaltet"),
    ("ports", "number of ports", "Anzahl der Abgänge"),
    ("power_factor", "power factor", "Leistungsfaktor"),
    ("power_loss", "what it does without power", "Verhalten ohne Strom"),
    ("rated_current", "rated current", "Nennstrom"),
    ("rated_hours", "hours of the rated capacity", "Stunden der Nennkapazität"),
    ("rated_power", "rated power", "Nennleistung"),
    ("rectifier_drop", "drop over the rectifier", "Spannungsfall am Gleichrichter"),
    ("relay_current", "current of the relay contact", "Strom des Relaiskontakts"),
    ("release_time", "release time", "Freigabezeit"),
    ("releasing_extra", "load while releasing", "Last während der Freigabe"),
    ("resistance_tolerance", "tolerance of the conductor's resistance", "Toleranz des Leiterwiderstands"),
    ("retry_pause", "pause before it tries again", "Pause, bis es wieder einschaltet"),
    ("ringing", "load while ringing", "Last beim Läuten"),
    ("ripple", "ripple", "Welligkeit"),
    ("role", "purpose", "Zweck"),
    ("runs_per_output", "runs on one output", "Stränge je Ausgang"),
    ("screened", "screen", "Schirm"),
    ("shares_zero_volt", "whether it passes the minus pole", "ob der Minuspol durchgeht"),
    ("short_circuit_current", "short-circuit current", "Kurzschlussstrom"),
    ("signal_bands", "bands of the signal", "Signalbänder"),
    ("signal_impedance", "impedance to signals", "Impedanz für Signale"),
    ("signal_loss", "loss of the signal", "Signaldämpfung"),
    ("signal_reference", "impedance that the loss is stated for", "Impedanz, für die die Dämpfung gilt"),
    ("simultaneous_calls", "calls at once", "gleichzeitige Rufe"),
    ("simultaneous_views", "residents who look at once", "Bewohner, die zugleich zusehen"),
    (
        "skin_corner",
        "frequency from which the skin effect counts",
        "Frequenz, ab der die Stromverdrängung zählt",
    ),
    ("source_resistance", "source resistance", "Innenwiderstand"),
    ("standby", "load in standby", "Last in Ruhe"),
    ("standby_hours", "hours in standby", "Stunden in Ruhe"),
    ("stations_per_dwelling", "stations in a dwelling", "Stationen je Wohnung"),
    ("stations_per_port", "stations on a port", "Stationen je Abgang"),
    ("supply_tolerance", "tolerance of the supply", "Toleranz der Speisung"),
    ("supply_voltage", "voltage of the supply", "Spannung der Speisung"),
    ("talking", "load while talking", "Last beim Sprechen"),
    ("terminator_capacitance", "capacitor of the terminator", "Kondensator des Abschlusses"),
    ("terminator_required", "whether a terminator is needed", "ob ein Abschluss nötig ist"),
    ("terminator_resistance", "resistance of the terminator", "Widerstand des Abschlusses"),
    ("total_length_per_port", "cable on a port", "Leitung je Abgang"),
    ("trip_delay", "delay before it trips", "Verzögerung, bis es abschaltet"),
    ("turn_off_voltage", "voltage at which it switches off", "Spannung, bei der es abschaltet"),
    ("turn_on_delay", "delay before it starts", "Verzögerung bis zum Einschalten"),
    ("turn_on_voltage", "voltage at which it starts", "Spannung, bei der es einschaltet"),
    ("undervoltage_tolerance", "voltage below the rated one", "Unterspannung am Schloss"),
    ("usual_temperature", "usual temperature of the conductors", "übliche Leitertemperatur"),
    ("voltage", "voltage", "Spannung"),
    ("voltage_tolerance", "tolerance of the voltage", "Toleranz der Spannung"),
];

/// Assumed values, given as "part key", by what they are: its name, and the parts of which it is assumed (none where it is
/// that of the whole site).
pub fn assumed_values(values: &[String], language: Language) -> Vec<(String, Vec<&str>)> {
    let mut named: Vec<(String, Vec<&str>)> = Vec::new();
    for value in values {
        let (rest, key) = value.rsplit_once(' ').unwrap_or(("", value));
        let own = name_of(key, language).unwrap_or(key);
        // The table that a key stands in comes before it.
        let table = rest.rsplit_once(' ').and_then(|(part, table)| Some((part, name_of(table, language)?)));
        let (part, name) = match table {
            Some((part, table)) => (part, format!("{table}: {own}")),
            None => (rest, own.to_string()),
        };
        let part = (part != WHOLE_SITE && !part.is_empty()).then_some(part);
        match named.iter_mut().find(|(known, _)| *known == name) {
            Some((_, parts)) => parts.extend(part),
            None => named.push((name, part.into_iter().collect())),
        }
    }
    named
}

/// What a key is called; `None` for a key that nothing judged rests on.
pub fn name_of(key: &str, language: Language) -> Option<&'static str> {
    let found = KEYS.binary_search_by(|(known, ..)| known.cmp(&key)).ok()?;
    let (_, english, german) = KEYS[found];
    Some(match language {
        Language::English => english,
        Language::German => german,
    })
}

/// A text for paper: keys that it names are said by what they are called. What is no key stays, so that a name with an underscore does.
pub fn without_keys(text: &str, language: Language) -> String {
    let is_of_key = |sign: char| sign.is_ascii_lowercase() || sign == '_';
    let mut said = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find(is_of_key) {
        let (before, from) = rest.split_at(start);
        let end = from.find(|sign: char| !is_of_key(sign)).unwrap_or(from.len());
        let word = &from[..end];
        // A word of the language, and a part of a longer name, is no key.
        let is_whole = !before.ends_with(|sign: char| sign.is_alphanumeric() || sign == '-' || sign == '/')
            && !from[end..].starts_with(|sign: char| sign.is_alphanumeric() || sign == '-' || sign == '/');
        let name = name_of(word, language).filter(|_| is_whole && word.contains('_'));
        said.push_str(before);
        said.push_str(name.unwrap_or(word));
        rest = &from[end..];
    }
    said.push_str(rest);
    said
}

/// A key of a file as the source of a figure: by what it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct KeyName(pub &'static str);

impl From<&'static str> for KeyName {
    fn from(key: &'static str) -> Self {
        KeyName(key)
    }
}

impl Say for KeyName {
    fn said(&self) -> Said<'_> {
        Said::Row(
            [Language::English, Language::German].map(|language| name_of(self.0, language).unwrap_or(self.0)),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_stand_in_order_once() {
        assert!(KEYS.is_sorted_by(|(one, ..), (next, ..)| one < next));
    }

    #[test]
    fn keys_in_a_text_are_said_by_what_they_are_called() {
        let said = |text| without_keys(text, Language::English);
        assert_eq!(said("needs ostrel-dv1 turn_on_delay"), "needs ostrel-dv1 delay before it starts");
        assert_eq!(
            said("flat_1, flat_a and x-turn_on_delay stay"),
            "flat_1, flat_a and x-turn_on_delay stay"
        );
        assert_eq!(
            without_keys("turn_off_voltage unter turn_on_voltage", Language::German),
            "Spannung, bei der es abschaltet unter Spannung, bei der es einschaltet"
        );
    }

    #[test]
    fn assumed_values_are_told_by_what_they_are() {
        let values =
            ["bell line", "conditions joint_resistance", "pair line", "ps battery peukert_exponent", "x own"];
        let values = values.map(String::from);
        let told = assumed_values(&values, Language::English);
        let told: Vec<_> =
            told.iter().map(|(name, parts)| format!("{name} of {}", parts.join(", "))).collect();
        let wanted = [
            "line constants of bell, pair",
            "resistance of a joint of ",
            "battery: loss of capacity when discharged fast of ps",
            "own of x",
        ];
        assert_eq!(told, wanted);
    }
}
