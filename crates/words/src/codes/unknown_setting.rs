//! `unknown-setting`

code! {
    "unknown-setting"
    title: "There is no such setting" | "Eine solche Einstellung gibt es nicht",
    message: "there is no setting \"{name}\"" | "Es gibt keine Einstellung „{name}“",
    hint: "<did you mean {nearest:or}?>" | "<gemeint {nearest:or}?>",
    english:
        /// The sheet Site lists settings by their names. The nearest is shown; the template has all.
    german:
        /// Das Blatt Site nennt Einstellungen bei ihrem Namen. Der nächstliegende wird gezeigt; die Vorlage enthält alle.
}
