//! `no-place-with-mains`

code! {
    "no-place-with-mains"
    title: "No place has mains" | "Kein Ort hat einen Netzanschluss",
    message: "no place has mains" | "Kein Ort hat einen Netzanschluss",
    hint: "write yes under \"Mains\" where a supply may stand" | "unter „Mains“ yes schreiben, wo ein Netzgerät stehen darf",
    english:
        /// A supply needs mains. Write yes under Mains where one may stand.
    german:
        /// Ein Netzgerät braucht Netzanschluss. Unter Mains yes schreiben, wo eines stehen darf.
}
