//! Files that cannot be read, are something else than what is asked for, or may not be replaced.

use crate::row::{sentences, words};
use latchline_finding::Both;

words! {
    /// What a file plainly is.
    pub enum FileKind {
        Empty: "it is empty" | "die Datei ist leer",
        Workbook: "it is a workbook" | "das ist eine Arbeitsmappe",
        PackWorkbook:
            "it is the workbook of a pack, made from a site file"
            | "das ist die Arbeitsmappe einer Mappe, aus einer Anlagendatei gemacht",
        PhonePage:
            "it is the page for the phone, made from a site file"
            | "das ist die Seite für das Telefon, aus einer Anlagendatei gemacht",
        WebPage: "it is a web page" | "das ist eine Webseite",
        Pdf: "it is a PDF" | "das ist ein PDF",
        Drawing: "it is a drawing" | "das ist eine Zeichnung",
        Json: "it is JSON" | "das ist JSON",
        Site: "it is a site file" | "das ist eine Anlagendatei",
        Catalogue: "it is a catalogue" | "das ist ein Katalog",
        Readings: "it has readings of a site" | "darin stehen Messwerte einer Anlage",
        Table: "it is a table" | "das ist eine Tabelle",
    }
}

sentences! {
    /// What to give or to do in place of what was named.
    pub enum InsteadOf<'a> {
        SiteMadeFrom:
            "give that site file, for example site.toml"
            | "diese Anlagendatei nennen, zum Beispiel site.toml",
        GiveSurvey:
            "give the survey: a workbook, or a folder with dwellings.csv, places.csv, ..."
            | "die Aufnahme nennen: eine Arbeitsmappe oder einen Ordner mit dwellings.csv, places.csv, ...",
        TableOfSurveyOrPack:
            "if it is of a survey, make a site of its folder with: latchline design; if it is of a pack, give that site file, for example site.toml"
            | "gehört sie zu einer Aufnahme, aus deren Ordner eine Anlage machen mit: latchline design; gehört sie zu einer Mappe, deren Anlagendatei nennen, zum Beispiel site.toml",
        DesignIt { file: &'a str }:
            "if it is a survey, make a site of it with: latchline design {file}"
            | "ist es eine Aufnahme, daraus eine Anlage machen mit: latchline design {file}",
        ListParts { file: &'a str }:
            "list its parts with: latchline catalogue --catalogue {file}"
            | "seine Teile zeigt: latchline catalogue --catalogue {file}",
        LocateWith { file: &'a str }:
            "name the site first: latchline locate SITE {file}"
            | "zuerst die Anlage nennen: latchline locate SITE {file}",
        MakeSite:
            "a site file is TOML; make one with: latchline new"
            | "eine Anlagendatei ist TOML; eine neue macht: latchline new",
        SiteDrawnFrom:
            "name the site file that it was made of, for example site.toml"
            | "die Anlagendatei nennen, aus der das gemacht ist, zum Beispiel site.toml",
        SolveNetwork:
            "a network is solved with: latchline flow; a site file is TOML, see: latchline new"
            | "ein Netzwerk rechnet: latchline flow; eine Anlagendatei ist TOML, siehe: latchline new",
        CheckIt { file: &'a str }: "check it with: latchline check {file}" | "sie wird geprüft mit: latchline check {file}",
        NameInSurvey:
            "name it in the survey, on the sheet \"Site\""
            | "ihn in der Aufnahme nennen, auf dem Blatt „Site“",
        SurveyDesignedFrom:
            "give the survey that the site was designed from; a pack is made again with: latchline pack SITE -o pack"
            | "die Aufnahme nennen, aus der die Anlage entworfen wurde; eine Mappe macht neu: latchline pack SITE -o pack",
        MakeSurvey:
            "make a workbook to fill in with: latchline new --survey"
            | "eine Arbeitsmappe zum Ausfüllen macht: latchline new --survey",
    }
}

sentences! {
    /// Why a file cannot be used.
    pub enum FileRefusal<'a> {
        // Reading.
        CannotUse { file: &'a str }: "cannot use \"{file}\"" | "„{file}“ ist so nicht zu verwenden",
        CannotUseInput: "cannot use standard input" | "die Standardeingabe ist so nicht zu verwenden",
        CannotRead { file: &'a str }: "cannot read \"{file}\"" | "„{file}“ kann nicht gelesen werden",
        CannotReadInput: "cannot read standard input" | "die Standardeingabe kann nicht gelesen werden",
        CannotReadFolder { folder: &'a str }:
            "cannot read the folder \"{folder}\""
            | "der Ordner „{folder}“ kann nicht gelesen werden",
        NoSuchFile: "there is no such file; check the path" | "diese Datei gibt es nicht; den Pfad prüfen",
        NoSuchSite:
            "there is no such file; check the path, or make a site file with: latchline new"
            | "diese Datei gibt es nicht; den Pfad prüfen, oder eine Anlagendatei machen mit: latchline new",
        NoSuchSurvey:
            "there is no such file; check the path, or make a survey to fill in with: latchline new --survey"
            | "diese Datei gibt es nicht; den Pfad prüfen, oder eine Aufnahme zum Ausfüllen machen mit: latchline new --survey",
        MayNotRead: "no permission to read it" | "die Berechtigung zum Lesen fehlt",
        IsDirectory:
            "it is a directory; name the file in it, for example site.toml"
            | "das ist ein Ordner; die Datei darin nennen, zum Beispiel site.toml",
        TooLarge { megabytes: usize }:
            "it has more than {megabytes} MB; check that it is the right file"
            | "die Datei hat mehr als {megabytes} MB; prüfen, ob es die richtige ist",
        Utf16: "it is UTF-16 text; save it as UTF-8" | "der Text ist UTF-16; als UTF-8 speichern",
        PackedNotText:
            "it is a workbook or another packed file, not text; copy what is needed of it into a text file"
            | "das ist eine Arbeitsmappe oder eine andere gepackte Datei, kein Text; was davon gebraucht wird, in eine Textdatei kopieren",
        PdfNotText:
            "it is a PDF, not text; copy what is needed of it into a text file"
            | "das ist ein PDF, kein Text; was davon gebraucht wird, in eine Textdatei kopieren",
        NotUtf8 { byte: usize, line: usize, value: &'a str }:
            "it is not UTF-8 text: byte {byte} (line {line}) is {value}; save it as UTF-8"
            | "der Text ist nicht UTF-8: Byte {byte} (Zeile {line}) ist {value}; als UTF-8 speichern",
        NoSurveyInFolder { folder: &'a str }:
            "the folder \"{folder}\" has no CSV files; a survey is a workbook or a folder with dwellings.csv, places.csv, ...; make a workbook with: latchline new --survey"
            | "der Ordner „{folder}“ hat keine CSV-Dateien; eine Aufnahme ist eine Arbeitsmappe oder ein Ordner mit dwellings.csv, places.csv, ...; eine Arbeitsmappe macht: latchline new --survey",
        RatesUnusable { file: &'a str }:
            "cannot use \"{file}\" as a table of rates"
            | "„{file}“ ist als Tabelle der Häufigkeiten nicht zu verwenden",
        RateMissing { key: &'a str }:
            "\"{key}\" is missing, no number, or out of range"
            | "„{key}“ fehlt, ist keine Zahl oder liegt außerhalb des Bereichs",
        RatesSyntax { line: usize, detail: &'a Both }: "line {line}: {detail}" | "Zeile {line}: {detail}",
        RateShares { group: &'a str }:
            "under kinds, the shares of {group} do not add up to 1"
            | "unter kinds ergeben die Anteile (share) von {group} zusammen nicht 1",
        RateUnknown { key: &'a str }: "\"{key}\" is not known" | "„{key}“ ist nicht bekannt",
        ListsNoDevice { file: &'a str }:
            "\"{file}\" lists no device; write one a line, for example: indoor 0/12/1"
            | "„{file}“ nennt kein Gerät; eines je Zeile schreiben, zum Beispiel: indoor 0/12/1",
        InputTaken:
            "standard input is taken by the site; name its file"
            | "die Standardeingabe nimmt schon die Anlage; deren Datei nennen",
        ChangeNeedsFile:
            "standard input has no file that could be changed; name the site file"
            | "die Standardeingabe hat keine Datei, die sich ändern ließe; die Anlagendatei nennen",
        InputNotWatched:
            "standard input cannot be watched; name a file"
            | "die Standardeingabe lässt sich nicht beobachten; eine Datei nennen",
        HasNoName { file: &'a str }: "the file \"{file}\" has no name" | "die Datei „{file}“ hat keinen Namen",
        // Something else than what is asked for.
        NoSite { file: &'a str, kind: FileKind, instead: &'a Both }:
            "\"{file}\" is no site file: {kind}; {instead}"
            | "„{file}“ ist keine Anlagendatei: {kind}; {instead}",
        NoSurvey { file: &'a str, kind: FileKind, instead: &'a Both }:
            "\"{file}\" is no survey: {kind}; {instead}"
            | "„{file}“ ist keine Aufnahme: {kind}; {instead}",
        PackFolder { folder: &'a str, instead: &'a Both }:
            "\"{folder}\" is the folder of a pack, made from a site file; {instead}"
            | "„{folder}“ ist der Ordner einer Mappe, aus einer Anlagendatei gemacht; {instead}",
        // Writing.
        CannotWrite { file: &'a str }: "cannot write \"{file}\"" | "„{file}“ kann nicht geschrieben werden",
        CannotChange { file: &'a str }: "cannot change \"{file}\"" | "„{file}“ kann nicht geändert werden",
        WriteToDirectory { file: &'a str }:
            "cannot write \"{file}\": it is a directory"
            | "„{file}“ kann nicht geschrieben werden: Das ist ein Ordner",
        IsInput { file: &'a str }:
            "\"{file}\" is an input; name another file for the result"
            | "„{file}“ ist eine Eingabe; für das Ergebnis eine andere Datei nennen",
        TwoResults { file: &'a str }:
            "two results would be written into \"{file}\"; name another file for one of them"
            | "zwei Ergebnisse kämen in „{file}“; für eines eine andere Datei nennen",
        Exists { file: &'a str }:
            "\"{file}\" exists already; choose another name, or replace it with --force"
            | "„{file}“ gibt es schon; einen anderen Namen wählen oder mit --force ersetzen",
        ExistsNoResult { file: &'a str }:
            "\"{file}\" exists already and is no result that can be made again; choose another name, or replace it with --force"
            | "„{file}“ gibt es schon und ist kein Ergebnis, das sich neu machen lässt; einen anderen Namen wählen oder mit --force ersetzen",
        ChangedSinceRead { file: &'a str }:
            "\"{file}\" has changed since it was read; nothing was written: run the command again"
            | "„{file}“ hat sich seit dem Lesen geändert; nichts wurde geschrieben: den Befehl noch einmal starten",
        ChangedByOther { file: &'a str }:
            "\"{file}\" was changed by somebody else; nothing was written"
            | "„{file}“ hat jemand anders geändert; nichts wurde geschrieben",
        NoLongerThere { file: &'a str }:
            "\"{file}\" is no longer there; nothing was written"
            | "„{file}“ ist nicht mehr da; nichts wurde geschrieben",
        Hyphen:
            "\"-\" names no file; without a name the result goes to standard output, and ./- is a file of that name"
            | "„-“ nennt keine Datei; ohne Namen geht das Ergebnis auf die Standardausgabe, und ./- ist eine Datei dieses Namens",
        Stream:
            "it is a pipe or a device, not a file"
            | "das ist eine Pipe oder ein Gerät, keine Datei",
        DeadLink { file: &'a str }:
            "it is a link to \"{file}\", which is not there"
            | "das ist ein Verweis auf „{file}“, und das gibt es nicht",
        JustMade:
            "somebody else has just made it; nothing was written"
            | "jemand anders hat die Datei eben angelegt; nichts wurde geschrieben",
        WrittenAllTheSame { file: &'a str }:
            "\"{file}\" was written all the same"
            | "„{file}“ wurde trotzdem geschrieben",
        CannotMakeFolder { folder: &'a str }:
            "cannot make the folder \"{folder}\""
            | "der Ordner „{folder}“ kann nicht angelegt werden",
    }
}

sentences! {
    /// What is said beside a result that was written.
    pub enum FileNote<'a> {
        OtherGroup { file: &'a str, was: &'a str, is: &'a str }:
            "note: \"{file}\" belonged to group {was} and belongs to {is} now"
            | "Hinweis: „{file}“ gehörte der Gruppe {was} und gehört jetzt {is}",
        OtherUser { file: &'a str, was: &'a str, is: &'a str }:
            "note: \"{file}\" belonged to user {was} and belongs to {is} now"
            | "Hinweis: „{file}“ gehörte dem Benutzer {was} und gehört jetzt {is}",
        SeveralNames { file: &'a str, names: &'a str }:
            "note: \"{file}\" has {names} names (hard links); the others still hold the old text"
            | "Hinweis: „{file}“ hat {names} Namen (harte Verweise); die anderen haben noch den alten Text",
        PutBack { folder: &'a str }:
            "note: a run was interrupted; \"{folder}\" is back as it was before"
            | "Hinweis: ein Aufruf wurde abgebrochen; „{folder}“ ist wieder wie zuvor",
        HoldsEarlier { old: &'a str, folder: &'a str }:
            "note: \"{old}\" holds files of an earlier \"{folder}\" that are not in the new one; look, then remove it"
            | "Hinweis: in „{old}“ liegen Dateien eines früheren „{folder}“, die im neuen nicht sind; ansehen, dann entfernen",
    }
}
