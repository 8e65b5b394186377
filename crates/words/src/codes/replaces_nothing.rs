//! `replaces-nothing`

code! {
    "replaces-nothing"
    title: "A part replaces nothing" | "Ein Teil ersetzt nichts",
    message:
        "the {kind} \"{name}\" says that it replaces another, but there is none of that name"
        | "„{name}“ ({kind}) soll ein anderes ersetzen, aber keines heißt so",
    label: "replaces nothing" | "ersetzt nichts",
    hint: "check the name, or remove replaces = true" | "den Namen prüfen, oder replaces = true entfernen",
    english:
        /// The part says `replaces = true`, but no earlier catalogue has one of that name. Check its name, or remove the key.
    german:
        /// Das Teil sagt `replaces = true`, aber kein früherer Katalog hat eines dieses Namens. Den Namen prüfen oder den Schlüssel entfernen.
}
