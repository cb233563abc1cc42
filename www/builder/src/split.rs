//! Takes the core apart into two modules: a first one with what ran at a start ([`crate::ran`]), and a second one with all other functions.
//!
//! Both have the same memory, table and globals: those of the first, which the second imports. A function of the first that calls one of the
//! second calls a stand-in of a few bytes, and that calls what lies in a slot of the table; the second fills the slots when it is
//! instantiated. Until then they are empty, and what is empty can't be called: the start notices, and begins again with both
//! (`www/src/start/core.ts`). So which functions are in the first decides how soon the page starts, and never what it does.

use std::collections::{BTreeMap, BTreeSet};

use walrus::ir::{CallIndirect, LocalGet, Visitor, dfs_in_order};
use walrus::{
    ConstExpr, ElementItems, ElementKind, ExportItem, FunctionBuilder, FunctionId, FunctionKind, GlobalKind,
    ImportKind, ImportedFunction, LocalFunction, Module, ModuleConfig, TableId, ir::Value, passes,
};

use crate::{Failure, Outcome};

/// Under this name the second module imports what the first exports.
const FIRST: &str = "first";

/// A function of the first with no more instructions than this is copied into the second: shorter than its import, and a compiler
/// can still put it into those that call it.
const COPIED: u64 = 12;

/// The core in two modules.
#[derive(Debug, PartialEq, Eq)]
pub struct Halves {
    /// What a start takes; it has the whole core's exports.
    pub first: Vec<u8>,
    /// All the rest; its one import is what the first exports.
    pub second: Vec<u8>,
}

/// The core in two modules: one with the functions that ran, in the order of the whole core's own functions, and one with the others.
///
/// # Errors
/// When the core is no wasm, or not as compilers of Rust write it.
pub fn split(core: &[u8], ran: &[bool]) -> Outcome<Halves> {
    // The ids of one module are nothing to another, but the order of its functions is always the same.
    let (one, other) = (parsed(core)?, parsed(core)?);
    let (first, second) = (Plan::of(&one, ran)?, Plan::of(&other, ran)?);
    Ok(Halves { first: first.first(one), second: second.second(other)? })
}

pub(crate) fn parsed(core: &[u8]) -> Outcome<Module> {
    ModuleConfig::new()
        .generate_producers_section(false)
        .parse(core)
        .map_err(|error| Failure::new(format!("The core can't be taken apart: {error:#}.")))
}

/// What goes where.
struct Plan {
    table: TableId,
    /// The table's slots that the whole core fills.
    filled: BTreeMap<u64, FunctionId>,
    /// The functions of the second.
    later: BTreeSet<FunctionId>,
    /// The slots through which the first calls those of them that it calls.
    called: BTreeMap<FunctionId, u64>,
    /// The table's size.
    slots: u64,
    /// The functions of the first that the second calls, and cannot have a copy of.
    shared: BTreeSet<FunctionId>,
}

impl Plan {
    fn of(core: &Module, ran: &[bool]) -> Outcome<Self> {
        let table = core
            .tables
            .main_function_table()
            .ok()
            .flatten()
            .ok_or_else(|| Failure::new("The core has no table of functions, or several."))?;
        let filled = filled(core, table)?;
        let locals: Vec<_> = core.funcs.iter_local().collect();
        if locals.len() != ran.len() {
            return Err(Failure::new(format!(
                "The core has {} functions, but it was watched with {}.",
                locals.len(),
                ran.len()
            )));
        }
        let has_run = |index: usize| ran[index];
        let (first, second): (Vec<_>, Vec<_>) =
            locals.into_iter().enumerate().partition(|&(index, _)| has_run(index));
        let later: BTreeSet<_> = second.iter().map(|&(_, (id, _))| id).collect();
        let mut called: BTreeSet<_> =
            first.iter().flat_map(|&(_, (_, function))| mentioned(function)).collect();
        called.extend(exported(core));
        called.extend(core.start);
        called.retain(|id| later.contains(id));
        let mut slots = core.tables.get(table).initial;
        let own: BTreeMap<FunctionId, u64> = filled.iter().map(|(&slot, &id)| (id, slot)).collect();
        let called = called
            .into_iter()
            .map(|id| {
                let slot = own.get(&id).copied().unwrap_or_else(|| {
                    slots += 1;
                    slots - 1
                });
                (id, slot)
            })
            .collect();
        let (mut shared, mut copied) = (BTreeSet::new(), BTreeSet::new());
        let mut open: Vec<_> = second.iter().flat_map(|&(_, (_, function))| mentioned(function)).collect();
        while let Some(id) = open.pop() {
            if later.contains(&id) || shared.contains(&id) || copied.contains(&id) {
                continue;
            }
            match &core.funcs.get(id).kind {
                FunctionKind::Local(function) if function.size() <= COPIED => {
                    copied.insert(id);
                    open.extend(mentioned(function));
                }
                _ => {
                    shared.insert(id);
                }
            }
        }
        Ok(Self { table, filled, later, called, slots, shared })
    }

    /// The functions that ran, with stand-ins for what they call of the others.
    fn first(&self, mut core: Module) -> Vec<u8> {
        for (&id, &slot) in &self.called {
            let stand_in = self.stand_in(&mut core, id, slot);
            core.funcs.get_mut(id).kind = FunctionKind::Local(stand_in);
        }
        self.refill(&mut core, |id| !self.later.contains(&id));
        for &id in &self.shared {
            core.exports.add(&name("f", id.index()), id);
        }
        let globals: Vec<_> = core.globals.iter().map(walrus::Global::id).collect();
        for id in globals {
            core.exports.add(&name("g", id.index()), id);
        }
        let tables: Vec<_> = core.tables.iter().map(walrus::Table::id).collect();
        for id in tables {
            core.exports.add(&name("t", id.index()), id);
        }
        let memories: Vec<_> = core.memories.iter().map(walrus::Memory::id).collect();
        for id in memories {
            core.exports.add(&name("m", id.index()), id);
        }
        passes::gc::run(&mut core);
        core.emit_wasm()
    }

    /// A function of the same type that calls what lies in a slot.
    fn stand_in(&self, core: &mut Module, id: FunctionId, slot: u64) -> LocalFunction {
        let ty = core.funcs.get(id).ty();
        let (params, results) = (core.types.params(ty).to_vec(), core.types.results(ty).to_vec());
        let args: Vec<_> = params.iter().map(|&param| core.locals.add(param)).collect();
        let mut builder = FunctionBuilder::new(&mut core.types, &params, &results);
        let mut body = builder.func_body();
        for &local in &args {
            body.instr(LocalGet { local });
        }
        body.i32_const(slot_number(slot)).instr(CallIndirect { ty, table: self.table });
        builder.local_func(args)
    }

    /// The functions that did not run, with all that they share imported.
    fn second(&self, mut core: Module) -> Outcome<Vec<u8>> {
        let exports: Vec<_> = core.exports.iter().map(walrus::Export::id).collect();
        exports.into_iter().for_each(|id| core.exports.delete(id));
        core.start = None;
        let data: Vec<_> = core.data.iter().map(walrus::Data::id).collect();
        data.into_iter().for_each(|id| core.data.delete(id));
        self.refill(&mut core, |id| self.later.contains(&id));
        // Those that fill no slot of the whole core, behind the others and in this order.
        let added: BTreeMap<u64, FunctionId> = self
            .called
            .iter()
            .map(|(&id, &slot)| (slot, id))
            .filter(|(slot, _)| !self.filled.contains_key(slot))
            .collect();
        fill(&mut core, self.table, &added);
        let imports: Vec<_> = core.imports.iter().map(walrus::Import::id).collect();
        for &id in &self.shared {
            let import = core.imports.add(FIRST, &name("f", id.index()), ImportKind::Function(id));
            let function = core.funcs.get_mut(id);
            let ty = function.ty();
            function.kind = FunctionKind::Import(ImportedFunction { import, ty });
        }
        let globals: Vec<_> = core.globals.iter().map(walrus::Global::id).collect();
        for id in globals {
            let import = core.imports.add(FIRST, &name("g", id.index()), ImportKind::Global(id));
            core.globals.get_mut(id).kind = GlobalKind::Import(import);
        }
        let tables: Vec<_> = core.tables.iter().map(walrus::Table::id).collect();
        for id in tables {
            let import = core.imports.add(FIRST, &name("t", id.index()), ImportKind::Table(id));
            core.tables.get_mut(id).import = Some(import);
        }
        let memories: Vec<_> = core.memories.iter().map(walrus::Memory::id).collect();
        for id in memories {
            let import = core.imports.add(FIRST, &name("m", id.index()), ImportKind::Memory(id));
            let memory = core.memories.get_mut(id);
            memory.import = Some(import);
            memory.data_segments.clear();
        }
        for id in imports {
            core.imports.delete(id);
        }
        passes::gc::run(&mut core);
        let foreign = core.imports.iter().find(|import| import.module != FIRST);
        if let Some(import) = foreign {
            return Err(Failure::new(format!("The core's second part asks for {:?}.", import.name)));
        }
        Ok(core.emit_wasm())
    }

    /// The table in its new size, filled with those functions that are chosen.
    fn refill(&self, core: &mut Module, is_chosen: impl Fn(FunctionId) -> bool) {
        let segments: Vec<_> = core.elements.iter().map(walrus::Element::id).collect();
        segments.into_iter().for_each(|id| core.elements.delete(id));
        let table = core.tables.get_mut(self.table);
        table.elem_segments.clear();
        table.initial = self.slots;
        table.maximum = table.maximum.map(|maximum| maximum.max(self.slots));
        let chosen = self.filled.iter().filter(|&(_, &id)| is_chosen(id)).map(|(&slot, &id)| (slot, id));
        fill(core, self.table, &chosen.collect());
    }
}

/// Fills slots of a table, each run of them by one segment.
fn fill(core: &mut Module, table: TableId, slots: &BTreeMap<u64, FunctionId>) {
    let mut runs: Vec<(u64, Vec<FunctionId>)> = Vec::new();
    for (&slot, &id) in slots {
        match runs.last_mut() {
            Some((start, run)) if *start + run.len() as u64 == slot => run.push(id),
            _ => runs.push((slot, vec![id])),
        }
    }
    for (start, run) in runs {
        let offset = ConstExpr::Value(Value::I32(slot_number(start)));
        let segment = core.elements.add(ElementKind::Active { table, offset }, ElementItems::Functions(run));
        core.tables.get_mut(table).elem_segments.insert(segment);
    }
}

/// What the segments put into a table.
fn filled(core: &Module, table: TableId) -> Outcome<BTreeMap<u64, FunctionId>> {
    let mut filled = BTreeMap::new();
    for element in core.elements.iter() {
        match (&element.kind, &element.items) {
            (ElementKind::Declared, _) => {}
            (
                ElementKind::Active { table: of, offset: ConstExpr::Value(Value::I32(offset)) },
                ElementItems::Functions(functions),
            ) if *of == table && *offset >= 0 => {
                let start = u64::from(offset.unsigned_abs());
                filled.extend((start..).zip(functions.iter().copied()));
            }
            _ => return Err(Failure::new("The core fills its table in a way that is not known here.")),
        }
    }
    Ok(filled)
}

/// The functions that a function names.
fn mentioned(function: &LocalFunction) -> BTreeSet<FunctionId> {
    struct Mentioned(BTreeSet<FunctionId>);
    impl Visitor<'_> for Mentioned {
        fn visit_function_id(&mut self, id: &FunctionId) {
            self.0.insert(*id);
        }
    }
    let mut mentioned = Mentioned(BTreeSet::new());
    dfs_in_order(&mut mentioned, function, function.entry_block());
    mentioned.0
}

fn exported(core: &Module) -> impl Iterator<Item = FunctionId> {
    core.exports.iter().filter_map(|export| match export.item {
        ExportItem::Function(id) => Some(id),
        _ => None,
    })
}

/// Under which name the first module exports something for the second; what JavaScript calls has longer ones.
fn name(kind: &str, index: usize) -> String {
    format!("{kind}{index:x}")
}

fn slot_number(slot: u64) -> i32 {
    i32::try_from(slot).unwrap_or(i32::MAX)
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::process::Command;

    use walrus::ir::{BinaryOp, MemArg, StoreKind};
    use walrus::{DataKind, RefType, ValType};

    use super::*;
    use crate::{command, node, paths};

    const I32: ValType = ValType::I32;

    /// A core of four functions: `twice` and `add` are called directly, `less` lies in the table alone, and `kept` is what runs at a start.
    ///
    /// `kept(x) = x + 40`, from a byte of memory; `sum(x) = twice(x) + kept(x)`, and it counts its calls in memory; `through(x)` calls
    /// what lies in the table: `less(x) = x - 1`.
    fn core() -> Vec<u8> {
        let mut core = Module::with_config(ModuleConfig::new());
        let memory = core.memories.add_local(false, false, 1, None, None);
        core.data.add(DataKind::Active { memory, offset: ConstExpr::Value(Value::I32(8)) }, vec![40]);
        let data: Vec<_> = core.data.iter().map(walrus::Data::id).collect();
        core.memories.get_mut(memory).data_segments.extend(data);
        let table = core.tables.add_local(false, 2, Some(2), RefType::FUNCREF);
        let depth = core.globals.add_local(I32, true, false, ConstExpr::Value(Value::I32(0)));
        let at = MemArg { align: 4, offset: 0 };

        let x = core.locals.add(I32);
        let mut kept = FunctionBuilder::new(&mut core.types, &[I32], &[I32]);
        // Long enough to be shared and not copied.
        let mut body = kept.func_body();
        for _ in 0..10 {
            body.global_get(depth).global_set(depth);
        }
        body.local_get(x).i32_const(8);
        body.load(
            memory,
            walrus::ir::LoadKind::I32_8 { kind: walrus::ir::ExtendedLoad::ZeroExtend },
            MemArg { align: 1, offset: 0 },
        );
        body.binop(BinaryOp::I32Add);
        let kept = kept.finish(vec![x], &mut core.funcs);

        let x = core.locals.add(I32);
        let mut twice = FunctionBuilder::new(&mut core.types, &[I32], &[I32]);
        twice.func_body().local_get(x).i32_const(2).binop(BinaryOp::I32Mul);
        let twice = twice.finish(vec![x], &mut core.funcs);

        let x = core.locals.add(I32);
        let mut sum = FunctionBuilder::new(&mut core.types, &[I32], &[I32]);
        let mut body = sum.func_body();
        body.i32_const(0).i32_const(0).load(memory, walrus::ir::LoadKind::I32 { atomic: false }, at);
        body.i32_const(1).binop(BinaryOp::I32Add).store(memory, StoreKind::I32 { atomic: false }, at);
        body.local_get(x).call(twice).local_get(x).call(kept).binop(BinaryOp::I32Add);
        let sum = sum.finish(vec![x], &mut core.funcs);

        let x = core.locals.add(I32);
        let mut less = FunctionBuilder::new(&mut core.types, &[I32], &[I32]);
        less.func_body().local_get(x).i32_const(1).binop(BinaryOp::I32Sub);
        let less = less.finish(vec![x], &mut core.funcs);

        let x = core.locals.add(I32);
        let ty = core.funcs.get(less).ty();
        let mut through = FunctionBuilder::new(&mut core.types, &[I32], &[I32]);
        through.func_body().local_get(x).i32_const(1).instr(CallIndirect { ty, table });
        let through = through.finish(vec![x], &mut core.funcs);

        fill(&mut core, table, &BTreeMap::from([(1, less)]));
        for (name, id) in [("kept", kept), ("sum", sum), ("through", through)] {
            core.exports.add(name, id);
        }
        core.exports.add("memory", memory);
        core.emit_wasm()
    }

    /// What a program in Node prints that has both modules, as `first` and `second`.
    fn printed(name: &str, halves: &Halves, program: &str) -> String {
        let folder = paths::target().join("tmp").join(name);
        fs::create_dir_all(&folder).expect("a folder");
        let path = |part: &str| folder.join(format!("{part}.wasm"));
        fs::write(path("first"), &halves.first).expect("a file");
        fs::write(path("second"), &halves.second).expect("a file");
        let load = format!(
            "const [first, second] = {:?}.map((path) => new WebAssembly.Module(require('fs').readFileSync(path)));",
            [path("first"), path("second")]
        );
        let mut node = Command::new(node::find().expect("Node builds the page").node);
        command::capture_or_show(node.args(["-e", &format!("{load}{program}")]))
            .expect("it runs in Node")
            .trim()
            .to_owned()
    }

    /// In the order that the core has them in: the longest first, as walrus writes them.
    fn ran(core: &[u8], names: &[&str]) -> Vec<bool> {
        let module = parsed(core).expect("a core");
        let ids: Vec<_> =
            names.iter().map(|name| module.exports.get_func(name).expect("an export")).collect();
        module.funcs.iter_local().map(|(id, _)| ids.contains(&id)).collect()
    }

    #[test]
    fn two_modules_do_what_the_one_does() {
        let core = core();
        let halves = split(&core, &ran(&core, &["kept", "through"])).expect("it can be taken apart");
        let said = printed(
            "halves",
            &halves,
            "const { exports } = new WebAssembly.Instance(first);
            const tried = (act) => { try { return act(); } catch (error) { return error.constructor.name; } };
            const before = [exports.kept(2), tried(() => exports.sum(2)), tried(() => exports.through(2))];
            new WebAssembly.Instance(second, { first: exports });
            const after = [exports.kept(2), exports.sum(2), exports.sum(5), exports.through(2)];
            console.log(...before, ...after, new Uint8Array(exports.memory.buffer)[0]);",
        );
        // By hand: 2 + 40; 2 × 2 + 42; 2 × 5 + 45; 2 - 1; two calls counted.
        assert_eq!(said, "42 RuntimeError RuntimeError 42 46 55 1 2");
    }

    #[test]
    fn with_everything_in_the_first_the_second_is_empty() {
        let core = core();
        let all = vec![true; parsed(&core).expect("a core").funcs.iter_local().count()];
        let halves = split(&core, &all).expect("it can be taken apart");
        let said = printed(
            "whole",
            &halves,
            "const { exports } = new WebAssembly.Instance(first);
            console.log(exports.sum(2), exports.through(2), WebAssembly.Module.imports(second).filter(({ kind }) => kind === 'function').length);",
        );
        assert_eq!(said, "46 1 0");
    }

    #[test]
    fn a_core_that_was_not_watched_is_refused() {
        let failure = split(&core(), &[true]).expect_err("there are five functions");
        assert_eq!(failure.to_string(), "The core has 5 functions, but it was watched with 1.");
        assert!(split(b"no wasm", &[]).is_err());
    }

    #[test]
    fn what_runs_sets_its_mark() {
        let core = core();
        let crate::ran::Watched { wasm, marks: (place, count) } =
            crate::ran::watched(&core).expect("it can be watched");
        let said = printed(
            "watched",
            &Halves { first: wasm, second: core.clone() },
            &format!(
                "const {{ exports }} = new WebAssembly.Instance(first); exports.sum(2);
                console.log(...new Uint8Array(exports.memory.buffer, {place}, {count}));"
            ),
        );
        let module = parsed(&core).expect("a core");
        let named: Vec<_> = module.funcs.iter_local().map(|(id, _)| id).collect();
        let [sum, kept] = ["sum", "kept"].map(|name| module.exports.get_func(name).expect("an export"));
        let marks: Vec<&str> = said.split(' ').collect();
        for (id, mark) in named.iter().zip(&marks) {
            let is_twice = module.exports.get_exported_func(*id).is_none()
                && module.funcs.get(*id).kind.unwrap_local().size() == 3
                && *mark == "1";
            let has_run = *id == sum || *id == kept || is_twice;
            assert_eq!(*mark == "1", has_run, "{said}");
        }
        assert_eq!(marks.iter().filter(|mark| **mark == "1").count(), 3, "sum, twice and kept: {said}");
    }
}
