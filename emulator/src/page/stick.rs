//! The memory stick: a folder that a person plugged in, or what the demonstration has
//! on it.
//!
//! A folder is that of a real laptop: `plan seal` writes to it, `audit report` reads
//! what the lock left on it. Both sides need the same pairing key, so it comes with
//! the keyring.

use lock_core::link::extract::Scope;
use lock_core::pairing::Pairing;

use super::setup::{Plugged, loadable};
use crate::carry::{Laptop, Stick};
use crate::drill::{Act, Drill, Play, Since};

/// What is plugged in.
pub(super) enum Memory<'s> {
    /// What the demonstration has.
    Demo,
    /// A folder.
    Folder(&'s Plugged),
}

impl<'s> Memory<'s> {
    /// The stick of this lock: a folder comes with one lock's key only.
    pub(super) fn of(plugged: Option<&'s Plugged>, drill: &Drill) -> Self {
        let ours = plugged.filter(|_| drill.paired.is_some());
        ours.map_or(Self::Demo, Self::Folder)
    }

    /// The names of the timetable files on it.
    pub(super) fn files(&self, drill: &Drill) -> Vec<String> {
        match self {
            Self::Demo => loadable(&drill.site).into_iter().map(|(name, _)| name).collect(),
            Self::Folder(plugged) => {
                let files = Stick::at(&plugged.folder).files().unwrap_or_default();
                let names = files.iter().filter_map(|path| path.file_name()?.to_str());
                names.map(str::to_owned).collect()
            }
        }
    }

    /// Loads the file of that name: the act, or what was done instead of one.
    pub(super) fn load(
        &self,
        name: &str,
        play: &mut Play<'_>,
        asked: &mut u16,
    ) -> Result<Done, String> {
        match self {
            Self::Demo => {
                let mut found = loadable(&play.drill().site).into_iter();
                let site = found.find(|(file, _)| file == name).map(|(_, site)| site);
                site.map(|site| Done::Act(Act::Load(site))).ok_or_else(|| NO_FILE.to_owned())
            }
            Self::Folder(plugged) => {
                let stick = Stick::at(&plugged.folder);
                let files = stick.files().map_err(|why| why.to_string())?;
                let mut found = files.into_iter();
                // A name, never a path: nothing beside the folder can be asked for.
                let path = found.find(|path| path.file_name().is_some_and(|file| file == name));
                let path = path.ok_or_else(|| NO_FILE.to_owned())?;
                let mut laptop = Laptop::new(play.world_mut(), *asked);
                let loaded = stick.load_file(&path, &mut laptop);
                *asked = laptop.number();
                play.carried(match loaded {
                    Ok((version, fingerprint)) => format!("version {} {fingerprint}", version.0),
                    Err(why) => why.to_string(),
                });
                Ok(Done::ByHand)
            }
        }
    }

    /// Collects the audit.
    pub(super) fn collect(
        &self,
        (scope, since): (Scope, Since),
        play: &mut Play<'_>,
        asked: &mut u16,
    ) -> Done {
        let Self::Folder(Plugged { folder, pairing }) = self else {
            return Done::Act(Act::Collect(scope, since));
        };
        let mut laptop = Laptop::new(play.world_mut(), *asked);
        let taken = taken(&Stick::at(folder), &mut laptop, (scope, since), pairing);
        *asked = laptop.number();
        play.carried(taken);
        Done::ByHand
    }
}

/// What there is to do.
pub(super) enum Done {
    /// This act, still.
    Act(Act),
    /// Nothing more: it was done, and no drill can do it again.
    ByHand,
}

fn taken(
    stick: &Stick,
    laptop: &mut Laptop<'_, impl crate::carry::Wire>,
    (scope, since): (Scope, Since),
    pairing: &Pairing,
) -> String {
    match stick.collect_emulated(laptop, (scope, since == Since::Last), pairing) {
        Ok(path) => {
            let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
            format!("collected into {}", name.unwrap_or_default())
        }
        Err(why) => why.to_string(),
    }
}

const NO_FILE: &str = "There is no such file on the stick.";
