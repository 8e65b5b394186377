//! Folders that a pack cannot be written into, or that another program works on.

use crate::row::sentences;

sentences! {
    /// Why a folder cannot be used.
    pub enum FolderRefusal<'a> {
        Hyphen:
            "\"-\" names no folder; a pack is a folder of files, for example pack"
            | "„-“ nennt keinen Ordner; eine Mappe ist ein Ordner mit Dateien, zum Beispiel pack",
        NotReplaced { folder: &'a str }:
            "\"{folder}\" cannot be replaced by a pack; name a folder of its own, for example pack"
            | "„{folder}“ kann nicht durch eine Mappe ersetzt werden; einen eigenen Ordner nennen, zum Beispiel pack",
        NoFolder { folder: &'a str }:
            "\"{folder}\" exists and is no folder; choose another name"
            | "„{folder}“ gibt es und ist kein Ordner; einen anderen Namen wählen",
        CannotLookInto { folder: &'a str }: "cannot look into \"{folder}\"" | "„{folder}“ lässt sich nicht öffnen",
        CannotLookBeside { folder: &'a str }:
            "cannot look beside \"{folder}\""
            | "neben „{folder}“ kann nicht nachgesehen werden",
        NoPack { folder: &'a str }:
            "\"{folder}\" holds files that are no pack; choose another folder"
            | "in „{folder}“ liegen Dateien, die keine Mappe sind; einen anderen Ordner wählen",
        IsOpen { folder: &'a str, file: &'a str }:
            "a file in \"{folder}\" is open in another program (\"{file}\"); close it and run again"
            | "eine Datei in „{folder}“ ist in einem anderen Programm offen („{file}“); schließen und noch einmal starten",
        Foreign { folder: &'a str, file: &'a str }:
            "\"{folder}\" holds \"{file}\", which is not of the earlier pack; move it away or choose another folder"
            | "in „{folder}“ liegt „{file}“, das nicht zur früheren Mappe gehört; verschieben oder einen anderen Ordner wählen",
        BeingWritten { folder: &'a str }:
            "another run is writing \"{folder}\"; run again when it has finished"
            | "ein anderer Aufruf schreibt gerade „{folder}“; noch einmal starten, wenn er fertig ist",
        CannotPutBack { folder: &'a str }:
            "cannot put \"{folder}\" back"
            | "„{folder}“ kann nicht zurückgestellt werden",
        LeftSeveral { folder: &'a str, first: &'a str, more: usize }:
            "several interrupted runs left \"{folder}\" in \"{first}\" and {more} more; rename one back"
            | "mehrere abgebrochene Aufrufe haben „{folder}“ in „{first}“ und {more} weiteren hinterlassen; einen davon zurückbenennen",
        CannotWrite { folder: &'a str }:
            "cannot write the folder \"{folder}\"; nothing was changed"
            | "der Ordner „{folder}“ kann nicht geschrieben werden; nichts wurde geändert",
        NowCalled { folder: &'a str, name: &'a str }:
            "the earlier \"{folder}\" is now \"{name}\""
            | "das frühere „{folder}“ heißt jetzt „{name}“",
        OtherSite { folder: &'a str, site: &'a str }:
            "\"{folder}\" holds the pack of another site, \"{site}\"; choose another folder, or move that pack away if the site was renamed"
            | "in „{folder}“ liegt die Mappe einer anderen Anlage, „{site}“; einen anderen Ordner wählen, oder diese Mappe verschieben, falls die Anlage umbenannt wurde",
        ChangedMeanwhile:
            "something in it was changed meanwhile; run again"
            | "darin hat sich inzwischen etwas geändert; noch einmal starten",
        OtherRunWriting: "another run is writing it" | "ein anderer Aufruf schreibt gerade darin",
        CannotLock { folder: &'a str }:
            "cannot lock the folder \"{folder}\""
            | "der Ordner „{folder}“ kann nicht gesperrt werden",
        TakenByOther { process: Option<usize>, folder: &'a str }:
            "another latchline< (process {process})> works on the folder \"{folder}\"; use its page, or end it first"
            | "ein anderes latchline< (Prozess {process})> arbeitet mit dem Ordner „{folder}“; dessen Seite benutzen oder es zuerst beenden",
        NoPassingFolder:
            "cannot make a folder for the demo"
            | "für das Beispiel kann kein Ordner angelegt werden",
    }
}
