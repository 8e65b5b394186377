//! Why the office page does not do what it is asked.

use crate::row::sentences;

sentences! {
    /// Why a request is not answered as asked.
    pub enum OfficeRefusal<'a> {
        NotFound: "There is no such thing." | "Das gibt es hier nicht.",
        TakesTooLong: "It takes too long; try again." | "Das dauert zu lange; noch einmal versuchen.",
        TooMuchAtOnce:
            "Too much is asked at once; try again in a moment."
            | "Zu viel auf einmal; gleich noch einmal versuchen.",
        AddressTooLong: "The address is too long." | "Die Adresse ist zu lang.",
        AddressNotUnderstood { message: &'a str }:
            "The address is not understood: {message}" | "Die Adresse ist nicht verständlich. Meldung des Lesers: „{message}“",
        NotUnderstood { message: &'a str }:
            "What was sent is not understood: {message}" | "Das Gesendete ist nicht verständlich. Meldung des Lesers: „{message}“",
        NoHost: "no host is named" | "der Name des Rechners fehlt in der Anfrage",
        OtherHost:
            "this server answers to the name of its own machine only"
            | "dieser Server antwortet nur unter dem Namen des eigenen Rechners",
        OtherRun:
            "the page is of another run of the server: load it again"
            | "die Seite stammt von einem früheren Start des Servers: neu laden",
        OtherMethod: "nothing here is asked for in this way" | "auf diese Art wird hier nichts abgefragt",
        OtherSite: "another site may not write here" | "eine fremde Seite darf hier nicht schreiben",
        NoText: "The file is no text." | "Die Datei ist kein Text.",
        TextNotUsable: "The text cannot be used as it is." | "Der Text ist so nicht zu verwenden.",
        ChangedMeanwhile:
            "The site has changed meanwhile; ask again."
            | "Die Anlage hat sich inzwischen geändert; noch einmal anfordern.",
        FamilyLacksParts:
            "The family lacks a supply, distributor, door or indoor station."
            | "Der Familie fehlt ein Netzteil, ein Verteiler, eine Tür- oder eine Innenstation.",
        Stopping: "the server is stopping" | "der Server wird gerade beendet",
        NoFreeName: "no name is free for the file" | "für die Datei ist kein Name frei",
        RevisionsApart:
            "a revision does not follow from the one before" | "ein Stand folgt nicht aus dem davor",
        EngineStopped:
            "the engine has stopped on this; nothing was changed"
            | "die Berechnung ist daran gescheitert; geändert wurde nichts",
        NoWorkbook: "no workbook could be made" | "eine Arbeitsmappe ließ sich nicht machen",
        NoPhonePage: "the page for the phone could not be made" | "die Seite für das Telefon ließ sich nicht machen",
    }
}
