//! `unpacks-too-large`

code! {
    "unpacks-too-large"
    title: "The workbook unpacks to too much" | "Die Arbeitsmappe ist entpackt zu groß",
    message:
        "the workbook unpacks to more than {megabytes} MB"
        | "Die Arbeitsmappe ist entpackt größer als {megabytes} MB",
    hint: "check that it is the right file" | "prüfen, ob es die richtige Datei ist",
    english:
        /// A workbook is a packed file; this one unpacks to more than a survey can hold. It is the wrong file, or one that was made to do harm.
    german:
        /// Eine Arbeitsmappe ist eine gepackte Datei; diese ergibt entpackt mehr, als eine Aufnahme enthalten kann. Es ist die falsche Datei oder eine, die schaden soll.
}
