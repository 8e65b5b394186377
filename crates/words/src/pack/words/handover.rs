//! Snags and handover.

/// Hands these rows and those before them on to the next table.
macro_rules! handover {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        Accepted: "accepted" | "akzeptiert",
        Advice: "advice" | "Hinweis",
        By: "By" | "Durch",
        DateDone: "Date mended" | "Behoben am",
        DateWord: "Date" | "Datum",
        Error: "error" | "Fehler",
        GivenAsBuilt: "As-built drawings and readings" | "Bestandspläne und Messwerte",
        GivenCredentials:
            "Credentials, sealed, to the owner in person"
            | "Zugangsdaten, verschlossen, dem Eigentümer persönlich",
        GivenInstruction:
            "Instruction of the owner and the residents"
            | "Einweisung von Eigentümer und Bewohnern",
        GivenKeys: "Keys and tags, counted" | "Schlüssel und Transponder, gezählt",
        GivenManuals: "Manuals of all devices" | "Anleitungen aller Geräte",
        GivenPack: "This pack" | "Diese Mappe",
        GivenPrivacy: "Notice on cameras and data protection" | "Hinweis zu Kameras und Datenschutz",
        GivenSpares: "Spare parts" | "Ersatzteile",
        HandoverDoors:
            "Release and escape agreed with the responsible person"
            | "Freigabe und Fluchtweg mit der verantwortlichen Person abgestimmt",
        HandoverGiven: "Handed over" | "Übergeben",
        FileForClient:
            "client.pdf: for the owner: summary, doors and what they do in an emergency, addresses, handover record; without prices."
            | "client.pdf: für den Eigentümer: Übersicht, Türen und ihr Verhalten im Notfall, Adressen, Übergabe; ohne Preise.",
        FileForInstaller:
            "installer.pdf: to carry on site: order of work, job cards, elevation, device schedule, cut list, table of faults, snags, handover record; without prices."
            | "installer.pdf: für die Baustelle: Arbeitsablauf, Arbeitskarten, Strangschema, Geräteliste, Zuschnittliste, Fehlertabelle, Mängel, Übergabeprotokoll; ohne Preise.",
        FileForOffice:
            "office.pdf: for planning and purchasing: calculations, schedules, parts, charts, commissioning sheets."
            | "office.pdf: für Planung und Einkauf: Berechnungen, Pläne, Stückliste, Diagramme, Inbetriebnahmeblätter.",
        HandoverInstruments: "Instruments used" | "Verwendete Messgeräte",
        HandoverNote:
            "This record says what was tested and handed over. It is not a certificate of compliance."
            | "Dieses Protokoll hält fest, was geprüft und übergeben wurde. Es ist kein Konformitätsnachweis.",
        HandoverSigned: "Signed" | "Unterschrieben",
        HandoverSystem: "The system" | "Die Anlage",
        HandoverTested: "Tested" | "Geprüft",
        HandoverTitle: "Handover record" | "Übergabeprotokoll",
        InstallerName: "Installer" | "Errichter",
        OtherInstrument:
            "Other instrument: make and number, calibrated until"
            | "Anderes Messgerät: Fabrikat und Nummer, kalibriert bis",
        OwnerName: "Owner or manager" | "Eigentümer oder Verwalter",
        SignedInstaller: "Signature of the installer" | "Unterschrift des Errichters",
        SignedOwner: "Signature of the owner or manager" | "Unterschrift von Eigentümer oder Verwalter",
        Site: "Site" | "Anlage",
        Snag: "What is wrong" | "Mangel",
        SnagsAccepted: "Accepted in the plan" | "Im Plan akzeptiert",
        SnagsClosed: "Snag list closed" | "Mängelliste abgearbeitet",
        SnagsFound: "Found by the check" | "Von der Prüfung gefunden",
        SnagsNote:
            "Findings of the check that stand, what it could not judge, and room for what is found on site."
            | "Offene Befunde der Prüfung, was sie nicht beurteilen konnte, und Platz für Befunde vor Ort.",
        SnagsOnSite: "Found on site" | "Vor Ort gefunden",
        SnagsTitle: "Snag list" | "Mängelliste",
        TestedBattery: "Battery takes over" | "Batterie übernimmt",
        TestedDoors: "Every lock releases, and shuts again" | "Jedes Schloss gibt frei und schließt wieder",
        TestedEscape: "Escape with the system off" | "Flucht bei ausgeschalteter Anlage",
        TestedFire:
            "Fire interlock, with the responsible person"
            | "Brandfallsteuerung, mit der verantwortlichen Person",
        TestedReadings: "All readings within their ranges" | "Alle Messwerte in ihren Bereichen",
        TestedStations:
            "Call, picture, speech and release at every station"
            | "Ruf, Bild, Sprache und Freigabe an jeder Station",
        VoltageTesterInstrument:
            "Voltage tester: make and number, calibrated until"
            | "Spannungsprüfer: Fabrikat und Nummer, kalibriert bis",
        Warning: "warning" | "Warnung",
        }
    };
}

pub(super) use handover;
