//! The pack in German: words.

use crate::language::Word;

/// A word or sentence without arguments.
pub(crate) fn word(word: Word) -> &'static str {
    match word {
        Word::About => "Betrifft",
        Word::Accepted => "akzeptiert",
        Word::Accessory => "Zubehör",
        Word::AcrossContact => "Parallel zum Relaiskontakt",
        Word::AcrossLock => "Parallel zum Schloss",
        Word::Address => "Adresse",
        Word::AddressMissing => "keine Adresse: siehe Mängelliste",
        Word::Advice => "Hinweis",
        Word::AgeingRemark => "nach Alterung und Temperatur",
        Word::AllRunsOff => "Alle Leitungen von den Ausgängen abklemmen, Netz einschalten.",
        Word::AlternatingCurrent => "Wechselstrom",
        Word::Ambient => "Umgebungstemperatur",
        Word::AssumedValue => "Beruht auf einer Annahme",
        Word::AudioDoorStation => "Türstation, Audio",
        Word::AudioExtension => "Innenstation, Audio, Nebenstelle",
        Word::AudioStation => "Innenstation, Audio",
        Word::Battery => "Batterie",
        Word::BatteryCapacity => "Kapazität der Batterie",
        Word::BatteryHours => "Stunden auf Batterie",
        Word::BatteryTakesOver => "Netz ausschalten: Die Anlage läuft weiter. Wieder einschalten.",
        Word::BatteryVoltage => "Spannung der Batterie",
        Word::BeforePowerNote => {
            "Auf diesem Blatt steht nichts unter Spannung. Von oben nach unten arbeiten."
        }
        Word::BeforePowerTitle => "Inbetriebnahme vor dem Einschalten",
        Word::BesideMains => "läuft neben Netzleitungen: trennen",
        Word::BoxKind => "Verteiler oder Abzweigdose",
        Word::BranchBox => "Abzweigdose",
        Word::BranchBoxes => "Abzweigdosen",
        Word::Buildings => "Gebäude",
        Word::Buried => "im Erdreich",
        Word::BusCollapses => "nicht beurteilt: Der Bus hat dort keinen Arbeitspunkt",
        Word::Buttons => "Tasten",
        Word::By => "Durch",
        Word::Cable => "Leitung",
        Word::CableEnd => "Leitung",
        Word::CableType => "Leitungstyp",
        Word::CablesTitle => "Leitungsliste",
        Word::CalculationsNote => {
            "Ungünstigstes Gerät jedes Netzteils in seinem ungünstigsten Zustand, alle Toleranzen dagegen; dann jedes Schloss; dann jedes Netzteil."
        }
        Word::CalculationsTitle => "Berechnungsblätter",
        Word::Called => "Gerufen",
        Word::CalledFrom => "Kann gerufen werden von",
        Word::CallsTitle => "Wer ruft wen",
        Word::CapacityCountedOn => "Angesetzte Kapazität",
        Word::CautionApart => "Kleinspannung von Netzspannung getrennt führen, in Trassen und in Dosen.",
        Word::CautionAssumed => "Einige Werte beruhen auf Annahmen.",
        Word::CautionCodes => "Örtliche Vorschriften gehen dieser Mappe vor.",
        Word::CautionDiode => "Polung der Diode beachten; nie an Wechselstrom.",
        Word::CautionDrive => {
            "Die Schutzeinrichtungen des Antriebs sind Sache eines anderen Gewerks; ein Kontakt darf sie nicht umgehen."
        }
        Word::CautionEscape => {
            "Über die Freigabe an Fluchtwegen und die Brandfallsteuerung entscheidet die verantwortliche Person."
        }
        Word::CautionIsolate => "Vor dem Verdrahten freischalten und Spannungsfreiheit feststellen.",
        Word::CautionMains => "Arbeiten am Netz nur durch dazu berechtigte Personen.",
        Word::CautionNoCertificate => "Dies ist eine Berechnung und ein Plan, kein Konformitätsnachweis.",
        Word::CautionOpens => {
            "Die Spule steht bei geschlossener Tür unter Strom: Sie ist warm, und die Tür öffnet bei Stromausfall, wenn keine Batterie sie speist."
        }
        Word::CautionSecureSide => "Das Relais auf der gesicherten Seite der Tür anbringen.",
        Word::CautionWayOut => "Der Weg hinaus muss ohne Bus und ohne Türstation frei sein.",
        Word::Cautions => "Vorsicht",
        Word::ChangeCredentials => {
            "Alle werkseitigen Codes und Passwörter ändern. Die neuen nicht auf dieses Blatt schreiben."
        }
        Word::ChargeCurrent => "Ladestrom",
        Word::ChargingPower => "Leistung zum Laden",
        Word::ChargingWaits => "was die Last von der Nennleistung übrig lässt",
        Word::ClampPart => "Suppressordiode (Klemme)",
        Word::Colour => "Farbe",
        Word::ColourConvention => {
            "Farben nach IEC 60757, nach Übereinkunft: zweiadrig flexibel BN/BU (HD 308 S2), vier Paare AWG wie ANSI/TIA-568, sonst WH BN, GN YE, GY PK, BU RD, BK VT (DIN 47100). Hat die Leitung andere, das Verwendete notieren."
        }
        Word::CompareDeviceList => {
            "Die Anlage ihre Geräte auflisten lassen; die Liste mit der Geräteliste vergleichen: keines fehlt, keines ist fremd, keines doppelt."
        }
        Word::ConductorSize => "Ader",
        Word::Contents => "Inhalt",
        Word::ContentsTitle => "Mappe",
        Word::ContinuousDuty => "für Dauerbetrieb",
        Word::ControlHeight => "Höhe der Bedienelemente",
        Word::CornersMeaning => {
            "Kleinster und größter Wert: die Nennrechnung wiederholt mit allen Toleranzen (Netzteil, Leitung, Länge, Temperatur, Lasten) gegen die Spannung, dann mit allen dafür."
        }
        Word::Current => "Strom",
        Word::CurrentInHand => "Stromreserve",
        Word::CurrentKind => "Stromart",
        Word::CutBoundMeaning => {
            "Bewiesen kleinstmöglich: Die gekauften Trommeln erreichen eine untere Schranke (ihre Summe fasst alle Stücke; oder das Dual des Programms von Gilmore und Gomory, dessen Preise ein ganzzahliger Rucksack prüft), also kauft kein Schnittplan weniger."
        }
        Word::CutLength => "Ablängen auf",
        Word::CutListTitle => "Schnittliste",
        Word::DateDone => "Behoben am",
        Word::DateWord => "Datum",
        Word::DelayedEgress => "Verzögerter Ausgang",
        Word::Designation => "Bezeichnung",
        Word::Device => "Gerät",
        Word::DevicesTitle => "Geräteliste in Gehreihenfolge",
        Word::DiodePart => "Diode, Kathode an Plus",
        Word::DirectCurrent => "Gleichstrom",
        Word::DisconnectBattery => "Batterie abklemmen.",
        Word::Distributor => "Verteiler",
        Word::Distributors => "Verteiler",
        Word::Done => "Erl.",
        Word::Door => "Tür",
        Word::DoorContactPart => "Türkontakt",
        Word::DoorStation => "Türstation",
        Word::DoorsTitle => "Türblätter",
        Word::DriveInput => "Eingang des Antriebs",
        Word::DropInBox => "Spannungsfall in einem Verteiler, Eingang bis Abgang",
        Word::DropInSource => "Spannungsfall in der Quelle",
        Word::Drum => "Trommel",
        Word::DrumLength => "Trommellänge",
        Word::Dwelling => "Wohnung",
        Word::Dwellings => "Wohnungen",
        Word::EitherCurrent => "Gleich- oder Wechselstrom",
        Word::EmergencyReleaseClosed => "Nottaster (Öffner)",
        Word::EmergencyReleasePart => "Nottaster",
        Word::EndOfChain => "Ende der Kette, bleibt frei",
        Word::Energised => "Bestromt",
        Word::Entrances => "Eingänge",
        Word::Error => "Fehler",
        Word::EscapeRoute => "Fluchtweg",
        Word::EscapeWithoutSystem => {
            "Bei ausgeschalteter Anlage öffnet die Tür von innen mit einem Griff, ohne Schlüssel."
        }
        Word::ExistingCable => "Vorhandene Leitung",
        Word::ExistingColours => "vorhandene Leitung: vorgefundene Farbe notieren",
        Word::ExitButtonNormallyClosed => "Ausgangstaster (Öffner)",
        Word::ExitButtonNormallyOpen => "Ausgangstaster (Schließer)",
        Word::ExitButtonPart => "Ausgangstaster",
        Word::ExpectedValue => "Erwartet",
        Word::FailSafe => "öffnet ohne Strom (Ruhestrom)",
        Word::FailSecure => "bleibt ohne Strom zu (Arbeitsstrom)",
        Word::Family => "Gerätefamilie",
        Word::FeedBus => "aus dem Bus über das Relais",
        Word::FeedDryContact => "eigene Versorgung, nimmt potenzialfreien Kontakt",
        Word::FeedMinus => "Speisung −",
        Word::FeedOwnSupply => "aus eigenem Netzteil über das Relais",
        Word::FeedPlus => "Speisung +",
        Word::FeedStation => "aus dem Schlossausgang der Türstation",
        Word::FieldBuilding => "Gebäude",
        Word::FieldDwelling => "Wohnung",
        Word::FieldEntrance => "Eingang",
        Word::FieldExtension => "Nebenstelle",
        Word::FieldManagement => "Zentrale",
        Word::FireContactClosed => "Kontakt der Brandmeldeanlage (Öffner)",
        Word::FireInterlock => "Brandfallsteuerung",
        Word::FireInterlockTest => {
            "Mit der verantwortlichen Person: Der Kontakt der Brandmeldeanlage gibt die Tür frei."
        }
        Word::For => "Für",
        Word::Formula => "Formel",
        Word::Free => "frei",
        Word::FreePorts => "Freie Abgänge",
        Word::From => "Von",
        Word::GateDrive => "Torantrieb",
        Word::GivenAsBuilt => "Bestandspläne und Messwerte",
        Word::GivenCredentials => "Zugangsdaten, verschlossen, dem Eigentümer persönlich",
        Word::GivenInstruction => "Einweisung von Eigentümer und Bewohnern",
        Word::GivenKeys => "Schlüssel und Transponder, gezählt",
        Word::GivenManuals => "Anleitungen aller Geräte",
        Word::GivenPack => "Diese Mappe",
        Word::GivenPrivacy => "Hinweis zu Kameras und Datenschutz",
        Word::GivenSpares => "Ersatzteile",
        Word::GoesTo => "Anderes Ende",
        Word::HandOver => "Die Übergabe mit dem Eigentümer gemeinsam ausfüllen.",
        Word::HandoverDoors => "Freigabe und Fluchtweg mit der verantwortlichen Person abgestimmt",
        Word::HandoverGiven => "Übergeben",
        Word::HandoverNote => {
            "Dieses Protokoll hält fest, was geprüft und übergeben wurde. Es ist kein Konformitätsnachweis."
        }
        Word::HandoverSigned => "Unterschrieben",
        Word::HandoverSystem => "Die Anlage",
        Word::HandoverTested => "Geprüft",
        Word::HandoverTitle => "Übergabeprotokoll",
        Word::HasJoints => "hat Verbindungen unterwegs",
        Word::Heat => "Wärme im Schrank",
        Word::Highest => "Höchstens",
        Word::HighestVoltage => "Größte Spannung",
        Word::HoldTime => "Freigabezeit",
        Word::Holds => "Erfüllt",
        Word::InHandNote => {
            "Stationen in Reserve: weitere Stationen des letzten Modells, die das Ende der Leitung nach Spannung, Strom und Datenblattzahlen tragen könnte. Eine Schätzung: Beweis ist, sie einzutragen und neu zu prüfen."
        }
        Word::InHandTitle => "Reserven",
        Word::InTheWalls => "liegt bereits",
        Word::IndoorStation => "Innenstation",
        Word::Indoors => "innen",
        Word::InputHash => "SHA-256 der Eingabe",
        Word::Inputs => "Eingangswerte",
        Word::InstallerName => "Errichter",
        Word::IsolateMains => "Vom Netz freischalten und gegen Wiedereinschalten sichern.",
        Word::Item => "Angabe",
        Word::JumperFitted => "gesteckt",
        Word::JumperOpen => "offen",
        Word::Keypad => "Codetastatur",
        Word::Kind => "Art",
        Word::KindSmall => "Kleinteil",
        Word::LabelConvention => {
            "Beide Enden tragen die Bezeichnung der Leitung, dann dieses Ende, dann das andere: Gerät, Doppelpunkt, Klemme (in der Art von IEC 81346 und IEC 61666)."
        }
        Word::LabelFrom => "Schild am Anfang",
        Word::LabelTo => "Schild am Ende",
        Word::LargestCurrent => "Größter Strom",
        Word::LargestPower => "Größte Leistung",
        Word::LatchedAtPowerUp => {
            "Einstellungen werden nur beim Einschalten gelesen: nach einer Änderung den Bus aus- und einschalten."
        }
        Word::LeastMargin => "Kleinster Abstand zu einem Grenzwert",
        Word::LeaveTidy => "Dosen schließen, Leitungen ordnen, Abfall mitnehmen.",
        Word::LedNote => {
            "Ströme gelten für Ruhe bei Tag, alle Geräte dahinter hochgefahren, kein Ruf; warten, bis die Anzeige steht."
        }
        Word::LeftOnDrum => "Rest auf Trommel",
        Word::Leg => "Pol",
        Word::LegsConvention => {
            "Die Pole werden durchgehend als + und − getrennt, auch wo ein Gerät beliebig gepolt arbeitet."
        }
        Word::Length => "Länge",
        Word::Limit => "Grenzwert",
        Word::LimitThere => "Grenzwert dort",
        Word::Line => "Nr.",
        Word::LinePrice => "Preis",
        Word::LiveNote => {
            "Von oben nach unten arbeiten. Ein Messwert außerhalb seines Bereichs wird vor dem nächsten Schritt geklärt."
        }
        Word::LiveTitle => "Inbetriebnahme unter Spannung",
        Word::LoadingMargin => "Lastreserve",
        Word::LoadingMarginMeaning => {
            "Faktor, um den alle Lasten wachsen könnten, bis es keinen Arbeitspunkt mehr gibt"
        }
        Word::Lock => "Schloss",
        Word::LockCableNotStated => "Leitung des Schlosses steht nicht im Plan",
        Word::LockSupplyPart => "Eigenes Netzteil eines Schlosses",
        Word::LockVoltage => "Spannung am Schloss, während es bestromt ist",
        Word::LockWithoutPower => "Ohne Strom verhält sich das Schloss, wie das Türblatt sagt.",
        Word::LoopResistance => "Schleifenwiderstand",
        Word::Lowest => "Mindestens",
        Word::LowestVoltage => "Kleinste Spannung",
        Word::Magnet => "Haltemagnet",
        Word::MainsCurrent => "Netzstrom",
        Word::ManagementStation => "Zentrale",
        Word::ManagementStations => "Zentralen",
        Word::Margin => "Abstand",
        Word::MeasureLockLoop => "Schleifenwiderstand der Leitung, am Schloss kurzgeschlossen",
        Word::MechanicalEscape => "Mechanische Fluchtmöglichkeit",
        Word::Mind => "Beachten",
        Word::Model => "Modell",
        Word::Module => "Modul",
        Word::MotorLock => "Motorschloss",
        Word::MountAndWire => "Montieren; nach Klemmenplan verdrahten; an jeder Ader ziehen.",
        Word::NameOnPanel => "Name auf dem Tableau",
        Word::NamesModule => "Namen",
        Word::NamesPrivacy => {
            "Beim Eigentümer erfragen, welche Namen gezeigt werden dürfen; Nummern genügen auch."
        }
        Word::NamesTitle => "Namenslisten der Tableaus und Verzeichnisse",
        Word::Needed => "Bedarf",
        Word::NeverCutInTwo => {
            "Keine Länge zwischen zwei Klemmen wird geteilt: Es kommen keine Verbindungen hinzu."
        }
        Word::NewCable => "Neue Leitung",
        Word::NewName => "Gewünschter Name",
        Word::No => "nein",
        Word::NoAddress => "hat keine Adresse",
        Word::NoBattery => "keine: Mit dem Netz steht alles",
        Word::NoOperatingPoint => "kein Arbeitspunkt",
        Word::NoPlace => "Ohne Ort im Plan",
        Word::NoShortAtOutput => "Kein Kurzschluss zwischen + und − der Leitungen und keiner gegen Erde.",
        Word::Nobody => "niemand",
        Word::NobodyCalls => "Kein Eingang ruft diese Station: siehe Mängelliste.",
        Word::NominalVoltage => "Nennspannung dort",
        Word::NormallyClosed => "Wurzel und Öffner",
        Word::NormallyOpen => "Wurzel und Schließer",
        Word::NotInCatalogue => "nicht im Katalog: auszuwählen",
        Word::NotJudged => "nicht beurteilt",
        Word::NotStated => "nicht angegeben",
        Word::NotStatedNone => "nicht angegeben (gilt als nein)",
        Word::NotStatedDefault => "nicht angegeben; Vorgabe",
        Word::NoteVersions => "Versionen aller Geräte im Übergabeprotokoll festhalten.",
        Word::Nothing => "nichts",
        Word::NothingLeadsHere => "nichts führt hierher",
        Word::Number => "Nr.",
        Word::OhmmeterNote => {
            "Ohmmeter sehen nicht durch den Gleichrichter einer Station: Elektronik abklemmen, Durchschleifklemmen verbinden und für die Schleifenmessung das ferne Ende kurzschließen. Bereiche: kälteste bis wärmste Ader, alle Toleranzen; Widerstand der Messleitungen abziehen."
        }
        Word::OpenCircuitVoltage => "Spannung am Ausgang, nichts angeschlossen",
        Word::OpensLocks => "Öffnet (nach einem Ruf)",
        Word::OpensMeaning => "Eine Station öffnet die Schlösser des Eingangs, der sie gerufen hat.",
        Word::OrderedInDrums => "bestellt nach Schnittliste; der Rest bleibt übrig",
        Word::Outdoors => "außen",
        Word::OutputPower => "Größte Ausgangsleistung",
        Word::OwnerName => "Eigentümer oder Verwalter",
        Word::Pair => "Paar",
        Word::PairsSpare => "Paare frei",
        Word::PairsUsed => "Paare belegt",
        Word::Panel => "Tableau",
        Word::PartsTitle => "Stückliste",
        Word::Place => "Ort",
        Word::PowerFrom => "Versorgung",
        Word::PowerInHand => "Leistungsreserve",
        Word::ProveDead => "Spannungsfreiheit an den Klemmen feststellen.",
        Word::Quantity => "Größe",
        Word::Reader => "Leser",
        Word::Reading => "Messwert",
        Word::RechargeHours => "Stunden zum Laden",
        Word::Reference => "Referenzkennzeichen",
        Word::RelayContactItem => "Relais verdrahtet",
        Word::RelayNormallyClosed => "Relais Wurzel, Öffner",
        Word::RelayNormallyOpen => "Relais Wurzel, Schließer",
        Word::RelayOnSecureSide => "Relais auf der gesicherten Seite",
        Word::ReleaseAndVolume => {
            "Die Freigabe öffnet die Tür; Lautstärke und Rufton nach Wunsch des Bewohners."
        }
        Word::Remark => "Bemerkung",
        Word::Result => "Ergebnis",
        Word::Revision => "Stand",
        Word::Rows => "Zeilen",
        Word::RuleToLookAt => "Zu beachtende Regel",
        Word::Run => "Strang",
        Word::RunWithoutSupply => "Kein Netzteil erreicht diesen Strang: siehe Mängelliste.",
        Word::Runs => "Stränge",
        Word::RunsWhere => "Verlegt",
        Word::ScreenConvention => {
            "Geschirmte Leitung: Schirm am netzteilseitigen Ende anschließen, am anderen isolieren (üblich)."
        }
        Word::Screened => "geschirmt",
        Word::SearchBounded => "Suche unvollständig: Die Werte sind die ungünstigsten gefundenen",
        Word::SearchComplete => "Suche vollständig",
        Word::SetAsPlanned => "wie geplant",
        Word::SetClock => "Datum und Uhrzeit stellen.",
        Word::SetInStation => "in der Türstation eingestellt, geht dem Plan vor",
        Word::Settings => "Schalterstellungen",
        Word::SeveralCables => "mehrere Leitungen nebeneinander: jede ziehen und beschriften",
        Word::Sheet => "Blatt",
        Word::SignedInstaller => "Unterschrift des Errichters",
        Word::SignedOwner => "Unterschrift von Eigentümer oder Verwalter",
        Word::Site => "Anlage",
        Word::Snag => "Mangel",
        Word::SnagsAccepted => "Im Plan akzeptiert",
        Word::SnagsClosed => "Mängelliste abgearbeitet",
        Word::SnagsFound => "Von der Prüfung gefunden",
        Word::SnagsNote => {
            "Offene Befunde der Prüfung, was sie nicht beurteilen konnte, und Platz für Befunde vor Ort."
        }
        Word::SnagsOnSite => "Vor Ort gefunden",
        Word::SnagsTitle => "Mängelliste",
        Word::Source => "Quelle",
        Word::SourceBound => {
            "Kirchhoffs Maschenregel; untere Schranke (Widerstandslasten mit ihrem größten Strom angesetzt)"
        }
        Word::SourceKirchhoff => "Kirchhoffs Maschenregel, Ohmsches Gesetz; Schleife ist Hin- und Rückleiter",
        Word::SourceMeasured => "vor Ort gemessene Schleife, nach Länge aufgeteilt, k ihr Fehler",
        Word::SourceVoltage => "Kleinste Spannung der Quelle",
        Word::Spares => "Reserve",
        Word::StageBatteries => "K. Batterien",
        Word::StageCheck => "D. Prüfen vor dem Einschalten",
        Word::StageDeviceList => "H. Geräteliste",
        Word::StageDoors => "J. Türen und Schlösser",
        Word::StageFinish => "L. Abschluss",
        Word::StageFirstStart => "G. Erster Start",
        Word::StageIsolate => "A. Freischalten und Spannungsfreiheit feststellen",
        Word::StagePowerUp => "E. Einschalten, Strang für Strang",
        Word::StageReadings => "F. Messwerte, alles angeschlossen",
        Word::StageSet => "C. Einstellen",
        Word::StageStations => "I. Jede Station: Spannung, Ruf, Bild, Sprache, Freigabe, Lautstärke",
        Word::StageWire => "B. Verdrahten",
        Word::StandbyHighest => "Ruhe höchstens",
        Word::StandbyLowest => "Ruhe mindestens",
        Word::StandbyMeaning => "Ruhe: bei Tag, alles angeschlossen und hochgefahren, kein Ruf.",
        Word::StandbyNominal => "Ruhe nominal",
        Word::StandbyVoltageHere => "Spannung an den Klemmen in Ruhe",
        Word::State => "Zustand",
        Word::StateAllCall => "Sammelruf",
        Word::StateBatteryEnd => "bei Batterie-Endspannung",
        Word::StateCall => "Ruf",
        Word::StateFireRelease => "Freigabe im Brandfall",
        Word::StateLightLoad => "kleinste Last, höchste Netzteilspannung",
        Word::StatePowerReturn => "Netzwiederkehr",
        Word::StateSelfView => "Bewohner sehen auf eine Kamera",
        Word::StateStandbyDay => "Ruhe bei Tag",
        Word::StateStandbyNight => "Ruhe bei Nacht",
        Word::StatesSolved => "Gerechnete Betriebszustände",
        Word::Stations => "Stationen",
        Word::StationsInHand => "Stationen in Reserve",
        Word::Step => "Schritt",
        Word::Strike => "Türöffner",
        Word::SummaryTitle => "Anlagenübersicht",
        Word::Supplies => "Netzteile",
        Word::SuppliesTitle => "Batterie- und Netzteilblatt",
        Word::Supply => "Netzteil",
        Word::SurgeProtectorHere => "Überspannungsschutz hier in der Leitung",
        Word::SurgeProtectorInRun => "Überspannungsschutz in diesem Strang",
        Word::SymbolsNote => {
            "Formelzeichen: r Ohm je Meter einer warmen Ader, L Länge, a und b Toleranzen von Länge und Widerstand, j Ohm je Verbindung, n Verbindungen, p Paare parallel, s und e Ohm des Überspannungsschutzes, ΣL Länge des ganzen Strangs, k Fehler einer gemessenen Schleife, t Toleranz der Quelle."
        }
        Word::Terminal => "Klemme",
        Word::TerminatorHere => "Abschluss hier gesetzt",
        Word::TerminatorPart => "Abschluss der Gerätefamilie",
        Word::TestedBattery => "Batterie übernimmt",
        Word::TestedDoors => "Jedes Schloss gibt frei und schließt wieder",
        Word::TestedEscape => "Flucht bei ausgeschalteter Anlage",
        Word::TestedFire => "Brandfallsteuerung, mit der verantwortlichen Person",
        Word::TestedReadings => "Alle Messwerte in ihren Bereichen",
        Word::TestedStations => "Ruf, Bild, Sprache und Freigabe an jeder Station",
        Word::Title => "Benennung",
        Word::To => "Nach",
        Word::ToOrder => "Zu bestellen",
        Word::Total => "Summe",
        Word::TryExitButton => "Der Ausgangstaster öffnet.",
        Word::UnitPrice => "Einzelpreis",
        Word::Value => "Wert",
        Word::VaristorPart => "Varistor",
        Word::Verdict => "Urteil",
        Word::VerdictAssumed => "hält, auf Grundlage von Annahmen",
        Word::VerdictFails => "nicht bestanden",
        Word::VerdictFailsAsAccepted => "nicht bestanden, jeder Fehler hingenommen",
        Word::VerdictHolds => "hält in jedem gerechneten Zustand",
        Word::VerdictNotJudged => "nichts gescheitert, aber nicht alles beurteilbar",
        Word::VideoDoorStation => "Türstation, Video",
        Word::VideoExtension => "Innenstation, Video, Nebenstelle",
        Word::VideoStation => "Innenstation, Video",
        Word::Voltage => "Spannung",
        Word::VoltageAtTerminals => "Spannung an den Klemmen",
        Word::VoltageNotNeeded => "keine zu beurteilen: Der Antrieb hat eigene Versorgung",
        Word::VoltagesTitle => "Erwartete Spannungen",
        Word::WaitForBoot => "Warten, bis alle Geräte hochgefahren sind.",
        Word::Warning => "Warnung",
        Word::What => "Was",
        Word::WhatIsThere => "Bestand",
        Word::WhatToDo => "Was zu tun ist",
        Word::Where => "Wo",
        Word::WhileReleased => "während der Freigabe",
        Word::WhileShut => "während geschlossen",
        Word::WholeCurrent => "Strom des ganzen Netzteils in Ruhe",
        Word::WiringInSeries => "In Reihe verdrahtet",
        Word::WiringTitle => "Klemmenplan",
        Word::WithoutPower => "Ohne Strom",
        Word::WorstDevice => "Ungünstigstes Gerät",
        Word::WorstLowest => "Mindestens dort",
        Word::WorstNominal => "Nominal dort",
        Word::WorstState => "Ungünstigster Zustand",
        Word::Yes => "ja",
    }
}
