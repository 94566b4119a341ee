import type { HookAnswer, LineAnswer } from './launch.js';
import type { LoadSaid } from './load-words.js';

/** Share of the weight below which a pull lifts nothing (judgement). */
const leastPull = 0.3;

const times = (value: number): string => `${value.toFixed(1)} times the weight`;

/** Why no more, in half a sentence. */
function boundWords({ by, climb, reserve, reason, startReason, limitSpeed }: LineAnswer, said: LoadSaid): string {
  if (by === 'speed') return `more lift than that takes more airspeed than the limit of ${said.speed(limitSpeed)}`;
  if (by === 'start')
    return `more, straight ahead at the start, pushes it with over half of what breaks its wings by their own inertia (${startReason})`;
  return reason === ''
    ? `more, straight down in the climb, makes its wing carry more than ${climb.toFixed(0)} times the weight`
    : `more, straight down in the climb, takes the wing beyond half of the ${(climb * reserve).toFixed(1)} times the weight that break it there (${reason})`;
}

function pullWords(line: LineAnswer, said: LoadSaid): string {
  const { greatest, weight, stated, kind } = line;
  const name = kind === undefined ? 'A line' : `The ${kind}`;
  if (!(greatest > leastPull * weight)) return `It is not made for a line: ${boundWords(line, said)}.`;
  const over =
    stated === undefined
      ? ''
      : stated > greatest
        ? ` It is stated to pull ${said.force(stated)}: too much.`
        : ` It is stated to pull ${said.force(stated)}, which is within that.`;
  return `${name} may pull with at most ${said.force(greatest)}, ${times(greatest / weight)}, and a weak link may bear no more: ${boundWords(line, said)}.${over}`;
}

function bungeeWords(
  { kind, way, weight, least, most, greatest, limitSpeed, stated }: LineAnswer,
  said: LoadSaid,
): string {
  if (kind === 'winch' || kind === 'towline' || !(greatest > leastPull * weight)) return '';
  const first = `A bungee that pulls ${said.force(least.pull)} at first and slackens evenly over ${said.way(way)} lets it go at ${said.speed(least.airspeed)}, 1.3 times its stall`;
  if (least.pull > greatest)
    return `${first}: that is more than the line may pull, so it needs ${said.way((least.pull / greatest) * way)} or more.`;
  const which = stated === undefined ? 'the hardest that is allowed' : 'the one stated';
  const fast = most.airspeed > limitSpeed ? `, above its limit speed of ${said.speed(limitSpeed)}` : '';
  return `${first}; ${which} at ${said.speed(most.airspeed)} at most${fast}.`;
}

function hookWords({ below, direction, usual, ahead, balancePoint }: HookAnswer, said: LoadSaid): string {
  const range = `${said.degrees(usual[0])} to ${said.degrees(usual[1])}`;
  if (direction === undefined)
    return `Its hook: ${said.length(ahead[0])} to ${said.length(ahead[1])} ahead of the balance point, which is ${said.length(balancePoint)} aft of the datum, if it sits ${said.length(below)} below it (line ${range} below the nose, from memory).`;
  const seen = `Seen from the balance point its hook is ${said.degrees(direction)} below the nose`;
  if (direction < usual[0])
    return `${seen}: flatter than the usual ${range} (from memory), the line holds the nose down and it climbs little.`;
  if (direction > usual[1])
    return `${seen}: steeper than the usual ${range} (from memory), the line pulls the nose up hard and may stall it.`;
  return `${seen}, within the usual ${range} (from memory).`;
}

/** What a builder needs to know of a launch on a line: how hard it may pull, how fast a bungee lets go, where the hook goes. */
export function lineWords(line: LineAnswer, said: LoadSaid): readonly string[] {
  const all = [
    pullWords(line, said),
    bungeeWords(line, said),
    line.greatest > leastPull * line.weight ? hookWords(line.hook, said) : '',
    `Assumed: ${line.assumed.join('; ')}.`,
  ];
  return all.filter((text) => text !== '');
}
