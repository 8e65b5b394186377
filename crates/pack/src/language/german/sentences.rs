//! The pack in German: sentences with arguments.

use crate::language::Sentence;

/// A sentence with its arguments.
pub(crate) fn sentence(sentence: &Sentence<'_>) -> String {
    match *sentence {
        Sentence::AlarmTells { told } => format!("meldet an {told}"),
        Sentence::AllowedRange { least, most } => format!("erlaubt: {least} bis {most}"),
        Sentence::AtBusVoltage { value } => format!("bei {value} am Bus, nominal"),
        Sentence::AtLeast { value } => format!("mindestens {value}"),
        Sentence::AtMost { value } => format!("höchstens {value}"),
        Sentence::AtMostAtAStretch { time } => format!("höchstens {time} am Stück"),
        Sentence::BatteryCarries { hours } => {
            format!("Die Batterie trägt die Anlage in Ruhe mindestens {hours}; heute nicht abzuwarten.")
        }
        Sentence::CallAudio { caller } => {
            format!("Ruf von {caller}: Es läutet; Sprache in beiden Richtungen klar. Spannung beim Sprechen:")
        }
        Sentence::CallAudioExtension { caller } => format!(
            "Ruf von {caller}: Läutet mit der Hauptstation; hier annehmen, Sprache in beiden Richtungen klar. Spannung beim Sprechen:"
        ),
        Sentence::CallReleasing { from, to } => format!("{from} spricht mit {to}, Schloss freigegeben"),
        Sentence::CallRinging { from, to } => format!("{from} ruft {to}"),
        Sentence::CallTalking { from, to } => format!("{from} spricht mit {to}"),
        Sentence::CallVideo { caller } => format!(
            "Ruf von {caller}: Es läutet; das Bild steht; Sprache in beiden Richtungen klar. Spannung beim Sprechen:"
        ),
        Sentence::CallVideoExtension { caller } => format!(
            "Ruf von {caller}: Läutet mit der Hauptstation; hier annehmen: Bild steht, Sprache in beiden Richtungen klar. Spannung beim Sprechen:"
        ),
        Sentence::CallViewing { from, to } => format!("{to} sieht auf {from}"),
        Sentence::CallsStanding { count } => format!("gleichzeitige Rufe: {count}"),
        Sentence::ConnectFeeder { run } => format!(
            "Strang {run} anschließen; was er speist, hat Spannung. Sein Strom wird später gemessen, mit allem dahinter."
        ),
        Sentence::ConnectRun { run, from } => format!("Strang {run} anschließen; Strom an {from}"),
        Sentence::ContactNeeded { contact } => format!("dieses Schloss braucht: {contact}"),
        Sentence::CutAllowance { tolerance, ends, step } => format!(
            "Ablängen auf: angegebene Länge, {tolerance} mehr für ihre Toleranz und {ends} je Ende zum Anschließen, aufgerundet auf {step}."
        ),
        Sentence::CutByTheMetre { name, needed } => {
            format!("{name}: {needed}, nach Länge gekauft (der Katalog nennt keine Trommellängen)")
        }
        Sentence::CutProved { name, drums, needed, bought, waste } => format!(
            "{name}: {drums}; Bedarf {needed}, gekauft {bought}, Rest {waste}; bewiesen kleinstmöglich"
        ),
        Sentence::CutTooLong { name, needed, piece, longest } => format!(
            "{name}: {needed}, nach Länge bestellen: Ein Stück von {piece} ist länger als die längste Trommel von {longest}"
        ),
        Sentence::CutWithBound { name, drums, needed, bought, waste, bound } => format!(
            "{name}: {drums}; Bedarf {needed}, gekauft {bought}, Rest {waste}; kein Plan kauft weniger als {bound}"
        ),
        Sentence::DoorAgreed { door } => {
            format!("{door}: Freigabe, Fluchtweg und Brandfallsteuerung abgestimmt mit (Name)")
        }
        Sentence::DropInSection { section } => format!("Spannungsfall auf {section}"),
        Sentence::ErrorsShort { count } => format!("{count} FEHLER"),
        Sentence::FindAndLabel { from, to } => {
            format!("Liegt bereits von {from} nach {to}: beide Enden suchen, durchprüfen, beschriften.")
        }
        Sentence::FeederCurrent { run } => format!("Strom von {run} mit allem dahinter"),
        Sentence::FreePort { port } => format!("Abgang {port} ist frei"),
        Sentence::HeightRange { least, most, source } => {
            format!("veröffentlicht: {least} bis {most} ({source})")
        }
        Sentence::LinesWithoutPrice { count } => {
            format!("Zeilen ohne Preis: {count}. Die Summe enthält sie nicht.")
        }
        Sentence::LockCalculation { door, number } => format!("{door}: Schloss {number}"),
        Sentence::MeasureInsulation { least } => format!(
            "Isolation zwischen den Adern und gegen Erde, Elektronik abgeklemmt, wie die Leitung es erlaubt: mindestens {least} Mohm. Messwert:"
        ),
        Sentence::MeasureLoop { from, end } => {
            format!("Schleifenwiderstand ab {from}, fernes Ende {end} kurzgeschlossen")
        }
        Sentence::ModuleCurrent { day, night } => format!("{day} bei Tag, {night} bei Nacht"),
        Sentence::Needs { what } => format!("braucht {what}"),
        Sentence::Origin { site, revision, date, hash } => {
            format!("{site} · Stand {revision} · {date} · SHA-256 der Eingabe {hash}")
        }
        Sentence::OriginUndated { site, revision, hash } => {
            format!("{site} · Stand {revision} · SHA-256 der Eingabe {hash}")
        }
        Sentence::PricesIn { currency } => format!("Preise in {currency}, ohne Steuer und Arbeit."),
        Sentence::PullAndLabel { from, to } => {
            format!("Von {from} nach {to} ziehen; beide Enden beschriften.")
        }
        Sentence::ReleaseTime { time } => format!("Freigabezeit: eingestellt auf {time}. Gemessen:"),
        Sentence::SetAddress { address, settings } => format!("Einstellen {address}: {settings}"),
        Sentence::SetVoltage { voltage } => format!("Ausgang auf {voltage} einstellen."),
        Sentence::SetsSolved { solved, of } => format!("gerechnete Rufkombinationen: {solved} von {of}"),
        Sentence::SiteHasErrors { count } => {
            format!("DIESE ANLAGE HAT FEHLER ({count}): NICHT NACH DIESEM BLATT BAUEN. Siehe Mängelliste.")
        }
        Sentence::SpareRule { from, of } => format!(
            "Reserve: je angefangene {of} eines Modells eine Station, ab {from} (üblich). Leitung: Rest der Trommeln."
        ),
        Sentence::SumOfDrops { source, drops } => format!("U₀ = {source}, Σ R I = {drops}"),
        Sentence::SupplyCalculation { supply } => format!("{supply}: Batterie, Netz, Wärme"),
        Sentence::SurgeProtector { resistance } => {
            format!("Überspannungsschutz, {resistance} in der Schleife")
        }
        Sentence::TryAlarmInput { told } => format!("Kontakt auslösen: Es muss gemeldet werden an {told}."),
        Sentence::TryModule { module } => format!("{module} arbeitet und öffnet, was es soll."),
        Sentence::VoltageAtEnd { run } => format!("Spannung am Ende von {run}"),
        Sentence::VoltageCalculation { device, source, state } => format!("{device} an {source}: {state}"),
    }
}
