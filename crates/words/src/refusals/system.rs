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
        Locked:
            "another program keeps it locked; try again when it has finished"
            | "ein anderes Programm hält die Datei gesperrt; wieder versuchen, wenn es fertig ist",
        GivenUp:
            "given up, since a newer revision has come"
            | "abgebrochen, da es einen neueren Stand gibt",
    }
}
