//! Drawings in German.

use super::{Phrase, Word};

/// A fixed word or sentence.
pub(super) fn word(word: Word) -> &'static str {
    match word {
        Word::Date => "Datum",
        Word::NotStated => "nicht angegeben",
        Word::Revision => "Stand",
        Word::Sheet => "Blatt",
        Word::UntitledSite => "Anlage ohne Titel",
        Word::VerdictAssumed => "hält, auf Grundlage von Annahmen",
        Word::VerdictFails => "nicht bestanden",
        Word::VerdictFailsAsAccepted => "nicht bestanden, jeder Fehler hingenommen",
        Word::VerdictHolds => "hält",
        Word::VerdictNotJudged => "nicht alles beurteilbar",
        Word::Advice => "Hinweis",
        Word::Error => "Fehler",
        Word::Warning => "Warnung",
        Word::AudioStation => "Audiostation",
        Word::BelowLimit => "unter dem Grenzwert",
        Word::BranchBox => "Abzweigdose",
        Word::CoreNotStated => "ohne Treppenhaus",
        Word::CrossingLines => "kreuzende Linien sind nicht verbunden",
        Word::Distributor => "Verteiler",
        Word::DoorStation => "Türstation",
        Word::Elevation => "Strangschema",
        Word::ElevationSubject => "Strangschema mit Spannungen",
        Word::FloorNotStated => "ohne Geschoss",
        Word::FurtherRuns => "weitere Stränge:",
        Word::LowestVoltage => "V: kleinste, im ungünstigsten Zustand",
        Word::ManagementStation => "Zentrale",
        Word::MarginMeaning => "+ V: Abstand zum Grenzwert",
        Word::MatchLine => "Anschlusslinie",
        Word::NoOperatingPoint => "kein Arbeitspunkt",
        Word::NoVoltage => "keine Spannung",
        Word::NothingStands => "In dieser Anlage steht noch nichts.",
        Word::Outdoors => "Außen",
        Word::PlaceNotStated => "Ohne Ort",
        Word::Run => "Strang",
        Word::RunExisting => "Strang, Leitung liegt bereits",
        Word::RunToBox => "Strang zu einer Dose oder einem Verteiler",
        Word::RunToBoxExisting => "Strang zu Dose oder Verteiler, Leitung liegt bereits",
        Word::Supply => "Netzteil",
        Word::VideoStation => "Videostation",
        Word::AdverseCurve => "alle Toleranzen dagegen, jedes Gerät in seinem ungünstigsten Zustand",
        Word::FeetFromSource => "ft ab der Quelle",
        Word::LimitLine => "Grenzwert",
        Word::MetresFromSource => "m ab der Quelle",
        Word::NominalCurve => "derselbe Zustand mit Nennwerten",
        Word::NoProfile => "Kein Strang erreicht ein Gerät mit einem Grenzwert der Spannung.",
        Word::Profiles => "Spannung entlang jedes Strangs",
        Word::ProfilesSubject => "Spannung entlang jedes Strangs",
        Word::Holds => "reicht",
        Word::Loss => "Dämpfung, dB",
        Word::NoPowerReturn => "Keine Netzwiederkehr wurde beurteilt.",
        Word::NoSignal => "Kein Signalband wurde beurteilt.",
        Word::NotEveryDip => "Nicht jede Senke, die entscheiden könnte, wurde eingegrenzt.",
        Word::SignalSubject => "Signal an der schwächsten Station",
        Word::StartUpSubject => "Busspannung bei Netzwiederkehr",
        Word::Time => "Zeit, s",
        Word::TooWeak => "zu schwach",
        Word::Undecided => "am Ende der gerechneten Zeit weder hochgefahren noch zur Ruhe gekommen",
        Word::Voltage => "Spannung, V",
        Word::AllOff => "alle aus",
        Word::BlackFitted => "schwarz = gesteckt",
        Word::FieldBuilding => "Gebäude",
        Word::FieldDwelling => "Wohnung",
        Word::FieldEntrance => "Eingang",
        Word::FieldExtension => "Nebenstelle",
        Word::FieldManagement => "Zentrale",
        Word::JumperFitted => "gesteckt",
        Word::JumperIn => "zu",
        Word::JumperOpen => "offen",
        Word::KeyIn => "eintippen",
        Word::LatchedAtPowerUp => "Wird nur beim Einschalten gelesen: nach einer Änderung Bus aus und ein.",
        Word::SwitchSettings => "Schalterstellungen",
        Word::SwitchSubject => "Schalterstellungen, in wahrer Größe, wenn ohne Anpassung gedruckt",
        Word::AtDoorStation => "Türstation",
        Word::BarToPlus => "Strich an Plus",
        Word::BusAtThe => "Bus an der",
        Word::Clamp => "Klemmdiode",
        Word::ClosedAtRest => "in Ruhe geschlossen",
        Word::ClosedWhileShut => "geschlossen, solange zu",
        Word::CoilOnToRelease => "Spule an zum Freigeben",
        Word::CoilOnWhileShut => "Spule an, solange zu",
        Word::Diode => "Diode",
        Word::DoorContact => "Türkontakt",
        Word::Drive => "Antrieb",
        Word::DriveInput => "Eingang des Antriebs",
        Word::DryContact => "potenzialfrei für einen Antrieb mit eigener Versorgung",
        Word::DuressButton => "Überfalltaster",
        Word::EmergencyRelease => "Nottaster",
        Word::ExitButton => "Ausgangstaster",
        Word::Feed => "Speisung",
        Word::Fire => "BRAND",
        Word::FireContact => "Brandmeldekontakt",
        Word::InDoorStation => "in der Türstation",
        Word::InputOf => "Eingang",
        Word::ItsOwn => "Netzteil",
        Word::Lock => "Schloss",
        Word::LoopsToContacts => "Schleifen von den Eingängen der Türstation zu den Kontakten",
        Word::Magnet => "Haftmagnet",
        Word::MotorLock => "Motorschloss",
        Word::NormallyClosed => "Öffner",
        Word::NormallyOpen => "Schließer",
        Word::OfTheDrive => "des Antriebs",
        Word::OpenAtRest => "in Ruhe offen",
        Word::OpensToRelease => "öffnet zum Freigeben",
        Word::OpensWithoutPower => "öffnet ohne Strom: Kontakte in Reihe, in Ruhe geschlossen",
        Word::RelayBetween => "Relais dazwischen",
        Word::ReleasesLocks => "gibt die Schlösser frei",
        Word::ResistorAtContact => "Widerstand am Kontakt",
        Word::StaysShutWithoutPower => "bleibt ohne Strom zu: ein Kontakt schließt zum Freigeben",
        Word::Strike => "Türöffner",
        Word::SupplyOf => "eigenes",
        Word::TamperContact => "Sabotagekontakt",
        Word::ToItsInput => "zum Eingang",
        Word::Varistor => "Varistor",
        Word::WiringNote => {
            "Vor dem Verdrahten freischalten und prüfen; über Fluchtwege entscheidet die verantwortliche Person."
        }
        Word::WiringSubject => "Verdrahtung der Schlösser und Meldeeingänge, Kontakte in Ruhe",
        Word::WiringWhat => "Verdrahtung der Schlösser und Meldeeingänge",
    }
}

/// The German of a band of the built-in catalogues, or the name itself.
pub(super) fn band(name: &str) -> &str {
    match name {
        "speech" => "Sprache",
        "speech and data" => "Sprache und Daten",
        "picture" => "Bild",
        name => name,
    }
}

/// A sentence with its arguments.
pub(super) fn phrase(phrase: &Phrase<'_>) -> String {
    let with = |lead: &str, part: Option<&str>, tail: &str| {
        part.map_or_else(String::new, |part| format!("{lead}{part}{tail}"))
    };
    match *phrase {
        Phrase::AlarmInput { number } => format!("Meldeeingang {number}"),
        Phrase::AlarmInputsOfDoor { door } => format!("{door} Meldeeingänge"),
        Phrase::LockOfDoor { door, number } => format!("{door} Schloss {number}"),
        Phrase::LockOutput { number } => format!("Schlossausgang {number}"),
        Phrase::RelayClosed { number } => format!("Relais {number}, Öffner"),
        Phrase::RelayOpen { number } => format!("Relais {number}, Schließer"),
        Phrase::Tells { names } => format!("meldet an {names}"),
        Phrase::AllUp { devices, after, last } => format!(
            "alle {devices} Geräte sind hochgefahren{}{}",
            with(" nach ", after, " s"),
            with(", zuletzt ", last, "")
        ),
        Phrase::Band { band, low, high, unit } => format!("{band}, {low} bis {high} {unit}"),
        Phrase::BootCurrent { current, limit: Some((source, limit)) } => {
            format!("Alle zugleich brauchen zum Hochfahren {current} A; {source} gibt {limit} A.")
        }
        Phrase::BootCurrent { current, limit: None } => {
            format!("Alle zugleich brauchen zum Hochfahren {current} A.")
        }
        Phrase::BrownOut { down, devices } => {
            format!("bleibt in Unterspannung; {down} von {devices} Geräten laufen nie an")
        }
        Phrase::Budget { budget } => format!("erlaubt {budget} dB"),
        Phrase::ChartsShow { charts } => format!("Diagramme insgesamt: {charts}."),
        Phrase::ElevationShows { site, sheet, of, devices, all } => format!(
            "Strangschema von {site}, Blatt {sheet} von {of}: {devices} von {all} Geräten und ihre Stränge."
        ),
        Phrase::Frequency { unit } => format!("Frequenz, {unit}"),
        Phrase::FromSource { source } => format!("Ab {source}"),
        Phrase::Hears { station, caller } => format!("{station} von {caller}"),
        Phrase::Hiccups { period, down, devices } => format!(
            "läuft an und fällt immer wieder aus{}; {down} von {devices} Geräten sind aus",
            with(", alle ", period, " s")
        ),
        Phrase::LimitVolts { limit } => format!("Grenzwert {limit} V"),
        Phrase::Margin { margin } => format!("Abstand {margin}"),
        Phrase::MarginBetween { least, most } => format!("{least} bis {most} V"),
        Phrase::MarginOrMore { least } => format!("Abstand {least} V oder mehr"),
        Phrase::MarginUnder { most } => format!("unter {most} V"),
        Phrase::MatchLineSheets { sheets, several: false } => format!("Anschlusslinie, Blatt {sheets}"),
        Phrase::MatchLineSheets { sheets, several: true } => format!("Anschlusslinie, Blätter {sheets}"),
        Phrase::MendingLimit { limit } => {
            format!("Läuft in der Rechnung an, wenn das Netzteil {limit} A gibt.")
        }
        Phrase::MendingStagger { stagger } => {
            format!("Läuft in der Rechnung an mit {stagger} s zwischen einem Strang und dem nächsten.")
        }
        Phrase::NotNamed { names } => format!("oben ohne Namen: {names}"),
        Phrase::OfLimit { value, limit } => format!("{value} von {limit}"),
        Phrase::PowerReturns { source } => format!("{source}: Netzwiederkehr bei 0 s"),
        Phrase::ProfilesShow { groups } => {
            format!("Spannung über der Entfernung, Gruppen von Strängen: {groups}.")
        }
        Phrase::RotaryAt { position } => format!("auf {position}"),
        Phrase::RunFromTo { run, from, to } => format!("Strang {run}, von {from} nach {to}"),
        Phrase::RunTo { run, to } => format!("{run} nach {to}"),
        Phrase::SectionOn { length, conductor, run } => format!("{length} {conductor} auf Strang {run}"),
        Phrase::SheetOf { sheet, of } => format!("{sheet} von {of}"),
        Phrase::SheetTitle { site, what, sheet, of } => format!("{site}: {what}, Blatt {sheet} von {of}"),
        Phrase::SingleStops { from } => format!("einzelne Geräte ab {from}"),
        Phrase::StartsAt { from } => format!("ab {from}"),
        Phrase::SwitchesOn { numbers } => format!("ON: {numbers}"),
        Phrase::TitleContinued { title } => format!("{title}, Fortsetzung"),
        Phrase::TroubleList { troubles } => format!("Befunde: {troubles}."),
        Phrase::TurnsOff { voltage } => format!("aus bei {voltage} V"),
        Phrase::TurnsOn { voltage } => format!("ein bei {voltage} V"),
        Phrase::UsualConductor { conductor } => format!("Ader {conductor}, wo keine genannt ist"),
        Phrase::Verdict { verdict } => format!("Urteil: {verdict}. Kein Prüfzeugnis."),
        Phrase::Weakest { station, caller, loss, share, at, unit, budget, outcome } => format!(
            "{station} hört {caller} mit {loss} dB Dämpfung{}, bei {at} {unit}; erlaubt {budget} dB: {outcome}",
            with(" über ", share, " % des Bands")
        ),
        Phrase::WeakestFrom { caller, station, loss, at, unit } => {
            format!("Von {caller}: am schwächsten {station}, {loss} dB bei {at} {unit}")
        }
    }
}
