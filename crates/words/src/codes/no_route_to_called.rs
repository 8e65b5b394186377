//! `no-route-to-called`

code! {
    "no-route-to-called"
    title: "No route leads to whom it calls" | "Zum Gerufenen führt kein Weg",
    message:
        "\"{element}\" calls \"{called}\"< and {others:other|others}>, and no route leads there"
        | "„{element}“ ruft „{called}“< und {others:weitere|weitere}>, und kein Weg führt dorthin",
    hint:
        "add the route between them, or say under Calls whom it calls"
        | "den Weg dazwischen ergänzen oder unter Calls angeben, wen er ruft",
    english:
        /// Who calls and who is called hang on one bus, so a cable must lead from one to the other. The survey has places that no route joins.
        ///
        /// Add the route if there is one. If the door serves its own building only, write that into its column "Calls": buildings that nobody calls
        /// across may stand apart, each with mains of its own.
    german:
        /// Wer ruft und wer gerufen wird, hängt an einem Bus, also muss eine Leitung vom einen zum anderen führen. Die Aufnahme hat Orte, die kein Weg verbindet.
        ///
        /// Den Weg ergänzen, wenn es ihn gibt. Bedient die Tür nur ihr eigenes Gebäude, gehört das in ihre Spalte „Calls“: Gebäude, zwischen denen niemand ruft,
        /// dürfen für sich stehen, jedes mit eigenem Netzanschluss.
}
