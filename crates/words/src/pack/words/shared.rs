//! Shared by several.

/// Hands these rows and those before them on to the next table.
macro_rules! shared {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        About: "About" | "Betrifft",
        Address: "Address" | "Adresse",
        Cable: "Cable" | "Leitung",
        CableType: "Cable type" | "Leitungstyp",
        CautionApart:
            "Keep extra-low voltage apart from mains, in cable routes and in boxes."
            | "Kleinspannung von Netzspannung getrennt führen, in Trassen und in Dosen.",
        CautionCodes: "Local codes prevail over this pack." | "Örtliche Vorschriften gehen dieser Mappe vor.",
        CautionEscape:
            "Release on escape routes and the fire interlock are decided by the responsible person."
            | "Über die Freigabe an Fluchtwegen und die Brandfallsteuerung entscheidet die verantwortliche Person.",
        CautionIsolate:
            "Isolate and prove dead before wiring."
            | "Vor dem Verdrahten freischalten und Spannungsfreiheit feststellen.",
        CautionMains:
            "Work on mains is done by licensed people only."
            | "Arbeiten am Netz nur durch dazu berechtigte Personen.",
        CautionNoCertificate:
            "This is a calculation and a plan, not a certificate of compliance."
            | "Dies ist eine Berechnung und ein Plan, kein Konformitätsnachweis.",
        Cautions: "Cautions" | "Vorsicht",
        ClampPart: "Suppressor diode (clamp)" | "Suppressordiode",
        Contents: "Contents" | "Inhalt",
        ContentsTitle: "Pack" | "Mappe",
        DiodePart: "Diode, cathode to plus" | "Diode, Kathode an Plus",
        Done: "Done" | "Erl.",
        DoorContactPart: "Door contact" | "Türkontakt",
        DoorStation: "Door station" | "Türstation",
        EmergencyReleasePart: "Emergency release" | "Nottaster",
        ExitButtonPart: "Exit button" | "Türöffnertaster",
        Free: "free" | "frei",
        From: "From" | "Von",
        InputHash: "SHA-256 of the input" | "SHA-256 der Eingabe",
        Item: "Item" | "Angabe",
        Kind: "Kind" | "Art",
        Length: "Length" | "Länge",
        Limit: "Limit" | "Grenzwert",
        Line: "No." | "Nr.",
        Lock: "Lock" | "Schloss",
        ManagementStation: "Management station" | "Zentrale",
        Margin: "Margin" | "Reserve",
        Model: "Model" | "Modell",
        No: "no" | "nein",
        NotJudged: "not judged" | "nicht beurteilt",
        NotStated: "not stated" | "nicht angegeben",
        Outdoors: "outdoors" | "außen",
        Place: "Place" | "Ort",
        Remark: "Remark" | "Bemerkung",
        Revision: "Revision" | "Stand",
        Rows: "Rows" | "Zeilen",
        Run: "Run" | "Strang",
        Sheet: "Sheet" | "Blatt",
        State: "State" | "Zustand",
        Stations: "Stations" | "Stationen",
        Supply: "Supply" | "Netzteil",
        Terminal: "Terminal" | "Klemme",
        Title: "Title" | "Benennung",
        Total: "Total" | "Summe",
        Value: "Value" | "Wert",
        VaristorPart: "Varistor" | same,
        Verdict: "Verdict" | "Ergebnis",
        VerdictAssumed: "holds in every state that was calculated, on assumed values"
            | "in jedem gerechneten Zustand eingehalten, auf Grundlage von Annahmen",
        VerdictFails: "fails" | "nicht eingehalten",
        VerdictFailsAsAccepted:
            "fails, with every error accepted"
            | "nicht eingehalten, jeder Fehler akzeptiert",
        VerdictHolds: "holds in every state that was calculated" | "in jedem gerechneten Zustand eingehalten",
        VerdictNotJudged:
            "nothing failed, but not all was judged"
            | "nichts verletzt, aber nicht alles beurteilt",
        Voltage: "Voltage" | "Spannung",
        What: "What" | "Was",
        Where: "Where" | "Wo",
        Yes: "yes" | "ja",
        }
    };
}

pub(super) use shared;
