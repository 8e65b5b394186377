//! The workbook alone.

/// Hands these rows and those before them on to the next table.
macro_rules! workbook {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        BackToContents: "< contents" | "< Inhalt",
        ChoiceDone: "done" | "erledigt",
        ChoiceFailed: "failed" | "nicht bestanden",
        ChoiceNotDone: "not done" | "offen",
        ChoiceOther:
            "This is none of the words of the list. It stays as you wrote it."
            | "Das ist keines der Wörter der Liste. Es bleibt, wie es geschrieben ist.",
        ChoicePassed: "passed" | "bestanden",
        ChoiceReversed: "reversed" | "vertauscht",
        ChoiceRight: "right" | "richtig",
        ChoiceTitle: "Another word" | "Ein anderes Wort",
        ReadingColours:
            "In this workbook a reading turns red outside lowest to highest, and green within. Write the number alone, in the unit of the limits; what is no number turns yellow."
            | "In dieser Arbeitsmappe wird ein Messwert rot, wenn er unter dem Mindest- oder über dem Höchstwert seiner Zeile liegt, sonst grün. Nur die Zahl schreiben, in der Einheit der Grenzwerte; was keine Zahl ist, wird gelb.",
        TabBeforePower: "before-power" | "Vor dem Einschalten",
        TabCables: "cables" | "Leitungen",
        TabCalculations: "calculations" | "Berechnungen",
        TabCalls: "calls" | "Rufe",
        TabContents: "contents" | "Inhalt",
        TabCupboards: "cupboards" | "Verteilungen",
        TabCutList: "cut-list" | "Zuschnitt",
        TabDevices: "devices" | "Geräte",
        TabDoors: "doors" | "Türen",
        TabFaults: "faults" | "Fehlertabelle",
        TabHandover: "handover" | "Übergabe",
        TabInterfaces: "interfaces" | "Schnittstellen",
        TabInHand: "in-hand" | "Reserven",
        TabLive: "live" | "Unter Spannung",
        TabNames: "names" | "Namen",
        TabOrderOfWork: "work-sequence" | "Arbeitsablauf",
        TabParts: "parts" | "Stückliste",
        TabRevisions: "revisions" | "Stände",
        TabGlossary: "glossary" | "Fachwörter",
        TabSnags: "snags" | "Mängel",
        TabSummary: "summary" | "Übersicht",
        TabSupplies: "supplies" | "Netzteile",
        TabVoltages: "voltages" | "Spannungen",
        TabWiring: "wiring" | "Verdrahtung",
        }
    };
}

pub(super) use workbook;
