//! No circle between the files inside a crate: what a file takes from others leads, from file to file, never back to it.
//!
//! The scan reads paths (`crate::`, `super::`, `self::`, a child's name) as text. What counts:
//!
//! * A path counts for the file in which the name that it ends in is written: through the re-exports of a `mod.rs` or `lib.rs`, which
//!   only pass a name on. Passing on is no use of it, unless the same file also uses it.
//! * A child that takes from its parent counts like any other, so a parent that makes use of its children cannot hold what they take.
//! * What is compiled for tests alone does not count. Nor do methods: calling one needs no path.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, reason = "tests may read files, and fail")]

use crate::common::repository_file;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// How often a name may be passed on before the scan gives up on it.
const MOST_STEPS: usize = 8;

/// The words of a source and its signs, one by one (`::` is one), without comments, texts and what is compiled for tests alone.
fn tokens(source: &str) -> Vec<String> {
    let mut bare = String::new();
    let mut rest = source;
    let mut before = ' ';
    while let Some(first) = rest.chars().next() {
        let is_in_word = before.is_alphanumeric() || before == '_';
        let skipped = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            rest.find("*/").map_or(rest.len(), |end| end + 2)
        } else if !is_in_word && (rest.starts_with("r\"") || rest.starts_with("r#")) {
            let hashes = rest[1..].chars().take_while(|sign| *sign == '#').count();
            let end = format!("\"{}", "#".repeat(hashes));
            let text = &rest[1 + hashes..];
            match text.strip_prefix('"').and_then(|inside| inside.find(&end)) {
                Some(length) => 1 + hashes + 1 + length + end.len(),
                None => 1 + hashes,
            }
        } else if first == '"' {
            let mut is_escaped = false;
            let end = rest[1..].find(|sign| {
                let ends = sign == '"' && !is_escaped;
                is_escaped = sign == '\\' && !is_escaped;
                ends
            });
            end.map_or(rest.len(), |end| end + 2)
        } else if first == '\'' {
            // A sign in quotes, or else a lifetime.
            let mut signs = rest[1..].char_indices();
            match (signs.next(), signs.next()) {
                (Some((_, '\\')), Some((after, _))) => {
                    rest[1 + after + 1..].find('\'').map_or(rest.len(), |end| 1 + after + 1 + end + 1)
                }
                (Some(_), Some((at, '\''))) => 1 + at + 1,
                _ => 1,
            }
        } else {
            bare.push(first);
            before = first;
            rest = &rest[first.len_utf8()..];
            continue;
        };
        bare.push(' ');
        before = ' ';
        rest = &rest[skipped..];
    }
    let mut tokens: Vec<String> = Vec::new();
    let mut signs = bare.chars().peekable();
    while let Some(sign) = signs.next() {
        if sign.is_whitespace() {
            continue;
        }
        let mut token = sign.to_string();
        if sign.is_alphanumeric() || sign == '_' {
            while let Some(next) = signs.next_if(|next| next.is_alphanumeric() || *next == '_') {
                token.push(next);
            }
        } else if sign == ':' && signs.next_if_eq(&':').is_some() {
            token.push(':');
        }
        tokens.push(token);
    }
    without_tests(&tokens)
}

/// Without the items that `#[cfg(test)]` stands before.
fn without_tests(tokens: &[String]) -> Vec<String> {
    let mark = ["#", "[", "cfg", "(", "test", ")", "]"];
    let mut kept = Vec::new();
    let mut place = 0;
    while place < tokens.len() {
        if !tokens[place..].iter().zip(mark).all(|(token, mark)| token == mark)
            || tokens.len() - place < mark.len()
        {
            kept.push(tokens[place].clone());
            place += 1;
            continue;
        }
        place += mark.len();
        let mut depth = 0;
        while place < tokens.len() {
            let token = tokens[place].as_str();
            place += 1;
            match token {
                "{" | "(" | "[" => depth += 1,
                "}" | ")" | "]" => depth -= 1,
                _ => {}
            }
            if depth == 0 && (token == "}" || token == ";") {
                break;
            }
        }
    }
    kept
}

/// A name that a module brings in: under which name, what the path is, whether it is passed on.
struct Brought {
    name: String,
    path: Vec<String>,
    is_passed_on: bool,
}

/// One module: a file, or what stands in braces within one.
#[derive(Default)]
struct Module {
    file: usize,
    children: BTreeMap<String, usize>,
    parent: usize,
    brought: Vec<Brought>,
    /// What it makes use of, each a path from the module itself.
    paths: Vec<Vec<String>>,
    /// The names written in it, so that a name that comes through `*` is found.
    defined: BTreeSet<String>,
    /// The macros among them.
    macros: BTreeSet<String>,
    /// Every word outside of what it brings in; a macro that is called with its `!`.
    words: BTreeSet<String>,
}

/// The files of a crate and its modules; the first module is the crate itself.
struct Crate {
    files: Vec<PathBuf>,
    modules: Vec<Module>,
}

impl Crate {
    fn read(root: &Path) -> Self {
        let mut read = Self { files: Vec::new(), modules: Vec::new() };
        read.file(root, root.parent().unwrap(), 0);
        read
    }

    /// Reads a file, with all that it names; `folder` holds its children.
    fn file(&mut self, path: &Path, folder: &Path, parent: usize) -> usize {
        let source =
            std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        self.files.push(path.to_path_buf());
        let module = self.modules.len();
        self.modules.push(Module { file: self.files.len() - 1, parent, ..Module::default() });
        let tokens = tokens(&source);
        let end = self.items(&tokens, 0, module, folder);
        assert_eq!(end, tokens.len(), "{}: braces", path.display());
        module
    }

    /// Reads the items of a module from a place on, and says where they end.
    fn items(&mut self, tokens: &[String], from: usize, module: usize, folder: &Path) -> usize {
        let mut place = from;
        let mut depth = 0;
        while place < tokens.len() {
            let token = tokens[place].as_str();
            let next = tokens.get(place + 1).map_or("", String::as_str);
            let follows = tokens.get(place + 2).map_or("", String::as_str);
            match token {
                "mod" if follows == ";" => {
                    let folder = folder.to_path_buf();
                    let (flat, deep) = (folder.join(format!("{next}.rs")), folder.join(next).join("mod.rs"));
                    let file = if flat.is_file() { flat } else { deep };
                    let child = self.file(&file, &folder.join(next), module);
                    self.modules[module].children.insert(next.to_string(), child);
                    place += 3;
                }
                "mod" if follows == "{" => {
                    let child = self.modules.len();
                    let file = self.modules[module].file;
                    self.modules.push(Module { file, parent: module, ..Module::default() });
                    self.modules[module].children.insert(next.to_string(), child);
                    place = self.items(tokens, place + 3, child, &folder.join(next)) + 1;
                }
                "use" if next != "<" => {
                    let is_passed_on = place > 0 && (tokens[place - 1] == "pub" || tokens[place - 1] == ")");
                    let mut found = Vec::new();
                    place = tree(tokens, place + 1, &[], &mut found) + 1;
                    let brought = found.into_iter().map(|(name, path)| Brought { name, path, is_passed_on });
                    self.modules[module].brought.extend(brought);
                }
                "}" if depth == 0 => return place,
                _ => {
                    match token {
                        "{" => depth += 1,
                        "}" => depth -= 1,
                        "fn" | "struct" | "enum" | "trait" | "type" | "const" | "static" | "union" => {
                            self.modules[module].defined.insert(next.to_string());
                        }
                        "macro_rules" => {
                            self.modules[module].defined.insert(follows.to_string());
                            self.modules[module].macros.insert(follows.to_string());
                        }
                        _ => {}
                    }
                    let starts = place == 0 || tokens[place - 1] != "::";
                    if starts && next == "::" {
                        let mut path = vec![token.to_string()];
                        while tokens.get(place + 1).is_some_and(|sign| sign == "::")
                            && place + 2 < tokens.len()
                        {
                            path.push(tokens[place + 2].clone());
                            place += 2;
                        }
                        self.modules[module].words.extend(path.first().cloned());
                        self.modules[module].paths.push(path);
                    } else {
                        let call = if next == "!" { "!" } else { "" };
                        self.modules[module].words.insert(format!("{token}{call}"));
                    }
                    place += 1;
                }
            }
        }
        place
    }

    /// The file in which the name at the end of a path is written, as far as it leads within the crate. `None` for names of others.
    fn written(&self, from: usize, path: &[String], steps: usize) -> Option<usize> {
        if steps > MOST_STEPS {
            return None;
        }
        let (first, rest) = path.split_first()?;
        let module = match first.as_str() {
            "crate" => return self.within(0, rest, steps),
            "self" => return self.within(from, rest, steps),
            "super" => return self.within(self.modules[from].parent, rest, steps),
            name => &self.modules[from].children.get(name).copied(),
        };
        match module {
            Some(child) => self.within(*child, rest, steps),
            None => {
                let brought = self.modules[from].brought.iter().find(|brought| brought.name == *first)?;
                // A child of the name would have been found; a crate of the name leads nowhere.
                let through: Vec<String> = brought.path.iter().chain(rest).cloned().collect();
                if brought.path.first() == Some(first) {
                    None
                } else {
                    self.written(from, &through, steps + 1)
                }
            }
        }
    }

    /// The same from a module on.
    fn within(&self, module: usize, path: &[String], steps: usize) -> Option<usize> {
        let here = &self.modules[module];
        let Some((first, rest)) = path.split_first() else { return Some(here.file) };
        if first == "super" {
            return self.within(here.parent, rest, steps);
        }
        if first == "self" {
            return self.within(module, rest, steps);
        }
        if let Some(child) = here.children.get(first) {
            return self.within(*child, rest, steps);
        }
        if here.defined.contains(first) {
            return Some(here.file);
        }
        if let Some(brought) = here.brought.iter().find(|brought| brought.name == *first) {
            let through: Vec<String> = brought.path.iter().chain(rest).cloned().collect();
            return self.written(module, &through, steps + 1);
        }
        let mut all = here.brought.iter().filter(|brought| brought.name == "*");
        let found = all
            .find_map(|all| self.module_of(module, &all.path).filter(|found| self.holds(*found, first, 0)));
        if let Some(found) = found.filter(|_| steps < MOST_STEPS) {
            return self.within(found, path, steps + 1);
        }
        Some(here.file)
    }

    /// The module that a path names, where it names one of this crate.
    fn module_of(&self, from: usize, path: &[String]) -> Option<usize> {
        let (first, mut rest) = path.split_first()?;
        let mut module = match first.as_str() {
            "crate" => 0,
            "self" => from,
            "super" => self.modules[from].parent,
            name => *self.modules[from].children.get(name)?,
        };
        while let Some((first, after)) = rest.split_first() {
            module = if first == "super" {
                self.modules[module].parent
            } else {
                *self.modules[module].children.get(first)?
            };
            rest = after;
        }
        Some(module)
    }

    /// Whether a module has a name to give, itself or passed on.
    fn holds(&self, module: usize, name: &str, steps: usize) -> bool {
        let here = &self.modules[module];
        let brings = |brought: &Brought| {
            let of_all = || {
                self.module_of(module, &brought.path).is_some_and(|found| self.holds(found, name, steps + 1))
            };
            brought.is_passed_on
                && (brought.name == name || brought.name == "*" && steps < MOST_STEPS && of_all())
        };
        here.defined.contains(name) || here.children.contains_key(name) || here.brought.iter().any(brings)
    }

    /// Whether a module makes use of a name that it passes on: of a macro by calling it.
    fn uses(&self, module: &Module, name: &str) -> bool {
        let is_macro = self.modules.iter().any(|one| one.macros.contains(name));
        module.words.contains(&format!("{name}{}", if is_macro { "!" } else { "" }))
    }

    /// For each file the files that it takes from, with a name for each.
    fn edges(&self) -> Vec<BTreeMap<usize, BTreeSet<String>>> {
        let mut edges: Vec<BTreeMap<usize, BTreeSet<String>>> = vec![BTreeMap::new(); self.files.len()];
        for (place, module) in self.modules.iter().enumerate() {
            let used = module
                .brought
                .iter()
                .filter(|brought| !brought.is_passed_on || self.uses(module, &brought.name))
                .map(|brought| &brought.path);
            for path in module.paths.iter().chain(used) {
                let Some(file) = self.written(place, path, 0) else { continue };
                if file != module.file {
                    edges[module.file]
                        .entry(file)
                        .or_default()
                        .insert(path.last().cloned().unwrap_or_default());
                }
            }
        }
        edges
    }

    /// The circles: files each of which leads to each other, with what ties them.
    fn circles(&self, name: &str) -> Vec<String> {
        let edges = self.edges();
        let reached: Vec<BTreeSet<usize>> = (0..edges.len())
            .map(|from| {
                let mut reached = BTreeSet::new();
                let mut open: Vec<usize> = edges[from].keys().copied().collect();
                while let Some(file) = open.pop() {
                    if reached.insert(file) {
                        open.extend(edges[file].keys());
                    }
                }
                reached
            })
            .collect();
        let mut circles = Vec::new();
        for (file, tied) in edges.iter().enumerate() {
            for (to, names) in tied.iter().filter(|(to, _)| reached[**to].contains(&file)) {
                let names: Vec<&str> = names.iter().map(String::as_str).collect();
                let shown = |file: usize| {
                    let path = self.files[file].to_string_lossy();
                    path.split("/src/").nth(1).unwrap_or(&path).to_string()
                };
                circles.push(format!("{name}: {} takes {} of {}", shown(file), names.join(", "), shown(*to)));
            }
        }
        circles
    }
}

/// What `use` brings in: each name with its path. Gives the place after the last token read.
fn tree(tokens: &[String], from: usize, before: &[String], found: &mut Vec<(String, Vec<String>)>) -> usize {
    let mut place = from;
    let mut path = before.to_vec();
    loop {
        match tokens[place].as_str() {
            "{" => {
                place += 1;
                while tokens[place] != "}" {
                    place = tree(tokens, place, &path, found);
                    place += usize::from(tokens[place] == ",");
                }
                return place + 1;
            }
            "::" => place += 1,
            ";" | "," | "}" => {
                if path.last().is_some_and(|last| last == "self") {
                    path.pop();
                }
                let name = path.last().cloned().unwrap_or_default();
                if name == "*" {
                    path.pop();
                }
                found.push((name, path));
                return place;
            }
            "as" => {
                found.push((tokens[place + 1].clone(), path));
                return place + 2;
            }
            word => {
                path.push(word.to_string());
                place += 1;
            }
        }
    }
}

#[test]
fn no_circle_between_the_files_of_a_crate() {
    let mut circles = Vec::new();
    let mut files = 0;
    let mut edges = 0;
    for entry in std::fs::read_dir(repository_file("crates")).unwrap() {
        let folder = entry.unwrap().path();
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        // Opened next.
        if ["latchline", "remedy", "words"].contains(&name.as_str()) {
            continue;
        }
        for root in ["src/lib.rs", "src/main.rs"] {
            if folder.join(root).is_file() {
                let read = Crate::read(&folder.join(root));
                files += read.files.len();
                edges += read.edges().iter().map(BTreeMap::len).sum::<usize>();
                circles.extend(read.circles(&name));
            }
        }
    }
    // A scan that sees nothing finds no circle either.
    assert!(files > 600 && edges > 2 * files, "{files} files, {edges} edges");
    assert!(circles.is_empty(), "{}\n({files} files, {edges} edges)", circles.join("\n"));
}
