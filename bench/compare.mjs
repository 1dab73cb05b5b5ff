// Runs Chuffed and Gecode on the models of a folder and prints them beside what the engine found.
// Start-up is left out: a model is flattened first, and only the time of the solver itself counts.
import {spawn, spawnSync} from 'node:child_process';
import {existsSync, readFileSync} from 'node:fs';
import path from 'node:path';
import {pathToFileURL} from 'node:url';
import {workerOf} from './wasm_worker.mjs';

const [folder, secondsText] = process.argv.slice(2);
const seconds = Number(secondsText);
const early = 10;

const rows = readFileSync(path.join(folder, 'ours.txt'), 'utf8').trim().split('\n').map((line) => {
  const [name, bound, first, firstSeconds, longer] = line.split(' ');
  return {name, bound: +bound, first: +first, firstSeconds: +firstSeconds, longer: +longer};
});

// {early, late: best value by then or null, proved: seconds or null}
function judge(found, proved) {
  const by = (limit) => found.filter((it) => it.at <= limit).reduce((best, it) => Math.min(best, it.value), Infinity);
  return {early: by(early), late: by(Infinity), proved};
}

// Seconds of processor, so that a busy machine does not count: of this process (its threads run Chuffed), or of
// another.
const own = () => { const it = process.cpuUsage(); return (it.user + it.system) / 1e6; };
function of(pid) {
  try {
    const words = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1].split(' ');
    return (Number(words[11]) + Number(words[12])) / 100;
  } catch {
    return null;
  }
}

async function chuffed(name, text, startUp) {
  const options = {solver: 'org.minizinc.chuffed'};
  const model = new MiniZinc.Model();
  model.addFile(name + '.mzn', text);
  const flat = await model.compile({options});
  const solve = new MiniZinc.Model();
  solve.addFile(name + '.fzn', flat);
  const found = [];
  let proved = null;
  const begun = own() + startUp;
  const spent = () => Math.max(0, own() - begun);
  const run = solve.solve({options: {...options, 'free-search': true, 'intermediate-solutions': true}});
  run.on('solution', (it) => {
    const value = /finish\s*=\s*(\d+)/.exec(it.output.default ?? it.output.raw ?? it.output.dzn ?? '')?.[1];
    if (value) found.push({at: spent(), value: +value});
  });
  run.on('status', (it) => {
    if (it.status === 'OPTIMAL_SOLUTION') proved = spent();
  });
  const watch = setInterval(() => { if (spent() > seconds) run.cancel(); }, 100);
  try {
    await run;
  } catch (error) {
    if (error?.code !== null) throw error;  // null: cancelled
  } finally {
    clearInterval(watch);
  }
  return {...judge(found, proved), spent: spent()};
}

async function gecode(name) {
  const fzn = path.join(folder, name + '.gecode.fzn');
  const flat = spawnSync('minizinc', ['-c', '--solver', 'gecode', path.join(folder, 'models', name + '.mzn'),
    '--fzn', fzn, '--no-output-ozn'], {encoding: 'utf8'});
  if (flat.status !== 0) throw new Error(`${name}: ${flat.stderr}`);
  const found = [];
  let proved = null;
  // By trial: without restarts the jobs find less, with them the projects.
  const restarts = name.startsWith('job') ? ['-restart', 'luby', '-restart-scale', '200'] : [];
  await new Promise((resolve) => {
    const run = spawn('fzn-gecode', ['-a', ...restarts, fzn]);
    let spent = 0;
    const watch = setInterval(() => {
      spent = of(run.pid) ?? spent;
      if (spent > seconds) run.kill();
    }, 100);
    let rest = '';
    run.stdout.on('data', (data) => {
      spent = of(run.pid) ?? spent;
      const lines = (rest + data).split('\n');
      rest = lines.pop();
      for (const line of lines) {
        const value = /^finish\s*=\s*(\d+)/.exec(line)?.[1];
        if (value) found.push({at: spent, value: +value});
        if (line.startsWith('==========') && found.length > 0) proved = spent;
      }
    });
    run.on('close', () => {
      clearInterval(watch);
      resolve();
    });
  });
  return judge(found, proved);
}

let MiniZinc = null;
const dist = path.resolve(folder, 'node_modules/minizinc/dist');
if (existsSync(dist)) {
  globalThis.Worker = workerOf(path.join(dist, 'minizinc-worker.js'));
  MiniZinc = await import(pathToFileURL(path.join(dist, 'minizinc.mjs')));
  await MiniZinc.init({
    workerURL: path.join(dist, 'minizinc-worker.js'),
    wasmURL: pathToFileURL(path.join(dist, 'minizinc.wasm')),
    dataURL: pathToFileURL(path.join(dist, 'minizinc.data')),
  });
} else {
  console.log('skipped: Chuffed, no package minizinc');
}
// What a model without a choice costs is start-up.
const startUp = MiniZinc === null ? 0 :
  (await chuffed('nothing', 'var 1..1: finish; solve minimize finish; output ["finish=\\(finish)\\n"];', 0)).spent;
const has = (program) => spawnSync(program, ['--version']).error === undefined;
const withGecode = has('minizinc') && has('fzn-gecode');
if (!withGecode) console.log('skipped: Gecode, no minizinc and fzn-gecode (apt-get install minizinc fzn-gecode)');

const cell = (it) => it === null ? '-' : (seconds > early ? [it.early, it.late] : [it.late]).map((v) => v === Infinity ? 'none' : v).join(' / ') +
  (it.proved === null ? '' : `, proved in ${it.proved.toFixed(1)} s`);
const given = seconds > early ? `${early} / ${seconds} s` : `${seconds} s`;
console.log(`| model | bound | engine: a plan / 10 s | Chuffed: ${given} | Gecode: ${given} |`);
console.log('|---|---|---|---|---|');
let wrong = 0;
for (const row of rows) {
  const text = readFileSync(path.join(folder, 'models', row.name + '.mzn'), 'utf8');
  const other = withGecode ? gecode(row.name) : null;  // beside it: flattening is over when it returns
  const one = MiniZinc === null ? null : await chuffed(row.name, text, startUp);
  const theirs = [one, await other];
  for (const it of theirs) {
    if (it === null) continue;
    // A proved optimum that we undercut, or a value below our bound: one of the two is wrong.
    if ((it.proved !== null && Math.min(row.first, row.longer) < it.late) || it.late < row.bound) {
      console.log(`WRONG: ${row.name}`);
      ++wrong;
    }
  }
  console.log(`| ${row.name} | ${row.bound} | ${row.first} in ${row.firstSeconds} s / ${row.longer} ` +
    `| ${cell(theirs[0])} | ${cell(theirs[1])} |`);
}
MiniZinc?.shutdown();
process.exit(wrong > 0 ? 1 : 0);
