//! What the system says, in words.

use crate::row::sentences;

sentences! {
    /// What an error of the system means for whoever named the file.
    pub enum SystemRefusal {
        // The lead of all, and what is said of a result that could not be written.
        Error: "error" | "Fehler",
        CannotWriteResult: "cannot write the result" | "das Ergebnis kann nicht geschrieben werden",
        NoFileChanged: "no file was changed" | "keine Datei wurde geändert",
        NoSuchFileOrFolder:
            "there is no such file or folder; check the path"
            | "diese Datei oder diesen Ordner gibt es nicht; den Pfad prüfen",
        PermissionDenied:
            "permission is denied; choose another place, or ask its owner"
            | "die Berechtigung fehlt; einen anderen Ort wählen oder den Besitzer fragen",
        NoSpaceLeft:
            "no space is left there; make room and run again"
            | "dort ist kein Platz mehr; Platz schaffen und noch einmal starten",
        OnlyRead:
            "what is there can only be read; choose another place"
            | "dort kann nur gelesen werden; einen anderen Ort wählen",
        IsDirectory:
            "it is a directory; name a file in it"
            | "das ist ein Ordner; eine Datei darin nennen",
        NotDirectory:
            "a part of the path is a file, not a folder; check the path"
            | "ein Teil des Pfads ist eine Datei, kein Ordner; den Pfad prüfen",
        NameNotAllowed:
            "the name is too long, or has signs that are not allowed there"
            | "der Name ist zu lang oder hat Zeichen, die dort nicht erlaubt sind",
        AlreadyThere:
            "something of that name is there already; choose another name"
            | "unter diesem Namen gibt es dort schon etwas; einen anderen Namen wählen",
        LinksInACircle:
            "its links lead in a circle; name the file itself"
            | "seine Verweise führen im Kreis; die Datei selbst nennen",
        FileTooLarge:
            "the file would be larger than that place allows; choose another place"
            | "die Datei würde größer, als dieser Ort zulässt; einen anderen Ort wählen",
        InUse:
            "another program uses it; try again when it has finished"
            | "ein anderes Programm benutzt das; wieder versuchen, wenn es fertig ist",
        FolderNotEmpty:
            "the folder is not empty; name another" | "der Ordner ist nicht leer; einen anderen nennen",
        AcrossDevices:
            "it would have to move to another disk; choose a place on the same one"
            | "es müsste auf einen anderen Datenträger; einen Ort auf demselben wählen",
        NotSupported:
            "that cannot be done at that place; choose another" | "an diesem Ort geht das nicht; einen anderen wählen",
        TimedOut:
            "the place did not answer in time; try again" | "der Ort hat nicht rechtzeitig geantwortet; noch einmal versuchen",
        BrokenOff:
            "whoever was to read it has gone" | "wer es lesen sollte, ist weg",
        NoMemory: "memory does not suffice" | "der Speicher reicht nicht",
        EndsTooEarly:
            "it ends before everything was read; check that the whole of it is there"
            | "es endet, bevor alles gelesen ist; prüfen, ob es vollständig ist",
        Locked:
            "another program keeps it locked; try again when it has finished"
            | "ein anderes Programm hält die Datei gesperrt; wieder versuchen, wenn es fertig ist",
        GivenUp:
            "given up, since a newer revision has come"
            | "abgebrochen, da es einen neueren Stand gibt",
    }
}

sentences! {
    /// What the system says where there is no row for it: by its number, which its maker explains, and its own English.
    pub enum OtherOfSystem<'a> {
        Numbered { number: &'a str, message: &'a str }:
            "the system says: {message} (error {number})"
            | "Fehler {number} des Systems, im Original: „{message}“",
        Unnumbered { message: &'a str }:
            "the system says: {message}" | "Fehler des Systems, im Original: „{message}“",
    }
}
