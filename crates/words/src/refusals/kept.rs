//! Why a store could not keep or give something.

use crate::row::{sentences, words};
use latchline_finding::Both;

words! {
    /// What is kept beside a text, where it is empty, too long or of no use.
    pub enum KeptThing {
        EditId: "the id of an edit" | "die Kennung einer Änderung",
        AnswerId: "the id of an answer" | "die Kennung einer Auskunft",
        Asker: "the name of who asked" | "der Name dessen, der gefragt hat",
        Question: "the question" | "die Frage",
        Answer: "the answer" | "die Auskunft",
        Assumptions: "the list of assumptions" | "die Liste der Annahmen",
        Catalogue: "the catalogue" | "der Katalog",
        SiteName: "the name of a site" | "der Name einer Anlage",
        StateName: "the name of a state" | "der Name eines Standes",
        Author: "the name of who did it" | "der Name dessen, der es getan hat",
        Client: "the name of the client" | "der Name der Seite, die es geschickt hat",
        Engine: "the version of the engine" | "die Version des Programms",
        Note: "the note" | "die Bemerkung",
    }
}

sentences! {
    /// What is not in a store.
    pub enum NotKept<'a> {
        Site { name: &'a str }: "site \"{name}\"" | "die Anlage „{name}“",
        SiteNumber { number: &'a str }: "site number {number}" | "eine Anlage mit der Nummer {number}",
        State { name: &'a str }: "state \"{name}\"" | "den Stand „{name}“",
        Revision { number: &'a str }: "revision {number} of the site" | "den Stand {number} der Anlage",
        Undecided { number: &'a str }:
            "undecided change of the file as revision {number}"
            | "eine offene Änderung der Datei als Stand {number}",
        Answer { number: &'a str }: "answer {number}" | "die Auskunft {number}",
    }
}

sentences! {
    /// What a store says when it cannot keep or give something.
    pub enum StoreFault<'a> {
        NotThere { what: &'a Both }:
            "there is no {what} in the store" | "in der Ablage gibt es {what} nicht",
        NameTaken { name: &'a str }:
            "the name \"{name}\" is in use; choose another"
            | "der Name „{name}“ ist vergeben; einen anderen wählen",
        IdReused { id: &'a str }:
            "the id \"{id}\" was used for another edit; every edit needs an id of its own"
            | "die Kennung „{id}“ hatte schon eine andere Änderung; jede braucht ihre eigene",
        Newer { place: &'a str, found: &'a str, known: &'a str }:
            "the store \"{place}\" is of version {found}, made by a newer latchline; this one knows versions up to {known}: install the newer one (nothing was changed)"
            | "die Ablage „{place}“ hat die Version {found} eines neueren latchline; dieses kennt Versionen bis {known}: das neuere installieren (nichts wurde geändert)",
        NotAStore { place: &'a str }:
            "\"{place}\" is not a store of latchline; name another file or folder (nothing was changed)"
            | "„{place}“ ist keine Ablage von latchline; eine andere Datei oder einen anderen Ordner nennen (nichts wurde geändert)",
        NoStore { place: &'a str }:
            "there is no store at \"{place}\"; check the path"
            | "bei „{place}“ ist keine Ablage; den Pfad prüfen",
        Full { place: &'a str }:
            "no space is left for the store \"{place}\"; make room and do it again (what was acknowledged is kept)"
            | "für die Ablage „{place}“ ist kein Platz mehr; Platz schaffen und es wiederholen (was bestätigt wurde, bleibt)",
        ReadOnly { place: &'a str }:
            "the store \"{place}\" can only be read; make file and folder writable, or copy them to another place (nothing was changed)"
            | "die Ablage „{place}“ lässt sich nur lesen; Datei und Ordner beschreibbar machen oder an einen anderen Ort kopieren (nichts wurde geändert)",
        Busy { place: &'a str }:
            "the store \"{place}\" is busy: another program holds it; try again when it has finished"
            | "die Ablage „{place}“ ist belegt: ein anderes Programm hält sie; noch einmal versuchen, wenn es fertig ist",
        Damaged { place: &'a str, detail: &'a Both }:
            "the store \"{place}\" is damaged ({detail}); keep a copy of it, and restore the last backup: latchline store restore"
            | "die Ablage „{place}“ ist beschädigt ({detail}); eine Kopie behalten und die letzte Sicherung zurückholen: latchline store restore",
        RevisionWithoutText { number: &'a str }:
            "revision {number} has no text" | "Stand {number} hat keinen Text",
        TextMissing { hash: &'a str }: "the text {hash} is missing" | "der Text {hash} fehlt",
        TextLeadsNowhere { hash: &'a str }: "the text {hash} leads nowhere" | "der Text {hash} führt ins Leere",
        TextInPieces { hash: &'a str }:
            "the text {hash} cannot be put together" | "der Text {hash} lässt sich nicht zusammensetzen",
        TextIsOther { hash: &'a str }:
            "the text {hash} is not what was kept" | "der Text {hash} ist nicht, was aufbewahrt wurde",
        Overtaken:
            "somebody else changed the site at the same moment; try again"
            | "im selben Augenblick hat jemand anders die Anlage geändert; noch einmal versuchen",
        Failed { place: &'a str, detail: &'a Both }:
            "cannot use the store \"{place}\": {detail}" | "die Ablage „{place}“ lässt sich nicht benutzen: {detail}",
        CannotOpen:
            "it cannot be opened or made; check that its folder is there and may be written"
            | "sie lässt sich weder öffnen noch anlegen; prüfen, ob es den Ordner gibt und er beschreibbar ist",
        OldTables { found: &'a str, known: &'a str }:
            "its tables are of version {found}; open it anew to bring them to {known}"
            | "ihre Tabellen haben die Version {found}; sie neu öffnen, das bringt sie auf {known}",
        Dangling:
            "something that is referred to is missing" | "etwas fehlt, worauf verwiesen wird",
    }
}

sentences! {
    /// What cannot be kept as it was given.
    pub enum UnfitWords<'a> {
        Empty { what: KeptThing }: "{what} is empty" | "{what} ist leer",
        TooLong { what: KeptThing, most: usize }:
            "{what} has more than {most} signs" | "{what} hat mehr als {most} Zeichen",
        ZeroByte { what: KeptThing }: "{what} holds a zero byte" | "{what} enthält ein Nullbyte",
        TooManyFiles { most: usize }:
            "a site has at most {most} files" | "eine Anlage hat höchstens {most} Dateien",
        NoSiteFile:
            "a site cannot be without its site file" | "eine Anlage kann nicht ohne ihre Anlagendatei sein",
        PathLength { path: &'a str, most: usize }:
            "the path \"{path}\" of a file of a site must have 1 to {most} signs"
            | "der Pfad „{path}“ einer Datei der Anlage muss 1 bis {most} Zeichen haben",
        PathSigns { path: &'a str }:
            "the path \"{path}\" of a file of a site must be without backslash, colon and signs that cannot be seen"
            | "der Pfad „{path}“ einer Datei der Anlage muss ohne umgekehrten Schrägstrich, Doppelpunkt und unsichtbare Zeichen sein",
        PathOut { path: &'a str }:
            "the path \"{path}\" of a file of a site must stay within its folder: no part may be empty or begin with a point"
            | "der Pfad „{path}“ einer Datei der Anlage muss in ihrem Ordner bleiben: kein Teil darf leer sein oder mit einem Punkt beginnen",
        TextTooLarge { path: &'a str, bytes: usize, most: usize }:
            "\"{path}\" has {bytes} bytes; at most {most} are kept"
            | "„{path}“ hat {bytes} Byte; höchstens {most} werden aufbewahrt",
        TextZeroByte { path: &'a str }:
            "\"{path}\" holds a zero byte: it is not a text" | "„{path}“ enthält ein Nullbyte: das ist kein Text",
        NotOfTheSite:
            "what stands aside is not part of the site: there is nothing to take back"
            | "was beiseite steht, gehört nicht zur Anlage: es gibt nichts zurückzunehmen",
        FirstRevision:
            "the first revision of a site cannot be taken back"
            | "der erste Stand einer Anlage lässt sich nicht zurücknehmen",
    }
}

sentences! {
    /// Why a live file cannot be read as a text of a site.
    pub enum LiveFault {
        Changes: "it changes while it is read" | "sie ändert sich, während sie gelesen wird",
        TooLarge { most: usize }: "it has more than {most} bytes" | "sie hat mehr als {most} Byte",
        ZeroByte: "it holds a zero byte and is not a text" | "sie enthält ein Nullbyte und ist kein Text",
        NotText { byte: usize }:
            "it is not UTF-8 text from byte {byte} on; save it as UTF-8"
            | "ab Byte {byte} ist sie kein UTF-8-Text; als UTF-8 speichern",
    }
}
