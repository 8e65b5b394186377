//! What only the printed pack says.

use crate::row::{sentences, words};

words! {
    /// A word or sentence of the printed pack without arguments.
    pub enum Word {
        Contents: "Contents" | "Inhalt",
        DrawingRegister: "Drawing register" | "Zeichnungsverzeichnis",
        DoorEntryPack: "Two-wire door-entry system: pack for site" | "Zweidraht-Türsprechanlage: Baustellenmappe",
        MadeFor: "Made for" | "Erstellt für",
        ForInstaller:
            "installation and commissioning; without prices"
            | "Montage und Inbetriebnahme; ohne Preise",
        ForOffice: "planning and purchasing" | "Planung und Einkauf",
        ForClient:
            "the owner; without prices, wiring and settings"
            | "den Eigentümer; ohne Preise, Verdrahtung und Einstellungen",
        Pages: "Pages" | "Seiten",
        Errors: "Errors" | "Fehler",
        NotArchival:
            "Without a date this file does not claim to be PDF/A."
            | "Ohne Datum erhebt diese Datei keinen Anspruch auf PDF/A.",
        // Titles of drawings.
        Elevation: "Elevation with runs and voltages" | "Strangschema mit Spannungen",
        Overview: "Overview: the whole system as blocks" | "Übersicht: die ganze Anlage als Blöcke",
        Profiles: "Voltage along each run" | "Spannung entlang jedes Strangs",
        Signal: "Signal at the weakest station" | "Signal an der schwächsten Station",
        StartUp: "Bus voltage when power returns" | "Busspannung bei Netzwiederkehr",
        SwitchSettings: "Switch settings" | "Schalterstellungen",
        LockWiring: "Wiring of locks and alarm inputs" | "Verdrahtung der Schlösser und Meldeeingänge",
        JobCards: "Job cards" | "Arbeitskarten",
        Labels: "Labels" | "Etiketten",
    }
}

sentences! {
    /// A sentence of the printed pack with its arguments.
    pub enum Sentence<'a> {
        Continued { what: &'a str }: "{what} (continued)" | "{what} (Fortsetzung)",
        PageOf { page: usize, of: usize }: "Page {page} of {of}" | "Seite {page} von {of}",
        SheetOf { drawing: &'a str, sheet: usize, of: usize }:
            "{drawing}, sheet {sheet} of {of}"
            | "{drawing}, Blatt {sheet} von {of}",
        Sheets { drawing: &'a str, of: usize }:
            "{drawing}, {of:sheet|sheets}"
            | "{drawing}, {of:Blatt|Blätter}",
        ErrorOf { what: &'a str, places: &'a str }: "{what}<: {places}>" | same,
        ErrorOfMany { what: &'a str, places: usize }:
            "{what}: {places} places, each in the snag list"
            | "{what}: an {places} Stellen, jede in der Mängelliste",
        LabelsApart { files: &'a str }:
            "Labels are in files of their own, {files}: print them on label stock at true scale."
            | "Die Etiketten stehen in eigenen Dateien, {files}: ohne Skalierung auf Etikettenbogen drucken.",
        NoGlyph { codes: &'a str }:
            "The embedded font has no glyph for {codes}. Each stands here as □; the text itself is in the file."
            | "Der eingebetteten Schrift fehlt ein Zeichen für {codes}. Es steht hier als □; in der Datei ist der Text vorhanden.",
    }
}
