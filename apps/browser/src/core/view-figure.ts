import { allRelations } from '@noonwing/engine/relations';
import { type LaterJob, refused } from './job.js';

/** One relation on its own. */
export const answer: LaterJob<'figure'>['answer'] = async (request) => {
  const relation = allRelations.find(({ topic }) => topic === request.topic);
  if (relation === undefined) return refused(`there is no topic "${request.topic}"`, 'topic', 'choose one of the list');
  const values: Record<string, number | string> = {};
  for (const input of relation.inputs) {
    const value = request.values[input.key] ?? input.default;
    if (value === undefined) return refused(`${input.help} is missing`, input.key, 'give it a value');
    values[input.key] = value;
  }
  const result = relation.compute(values);
  if ('reason' in result && typeof result.reason === 'string') {
    return refused(result.reason, request.topic, String(result.remedy));
  }
  const numbers = result as Readonly<Record<string, number>>;
  const outputs = relation.outputs.map(({ key, kind, help }) => ({ key, kind, help, value: numbers[key] ?? 0 }));
  return { kind: 'figure', view: { title: relation.title, outputs } };
};
