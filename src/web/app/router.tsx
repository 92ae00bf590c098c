import {
  createRootRoute,
  createRoute,
  createRouter,
  type ErrorComponentProps,
  lazyRouteComponent as fetchedComponent,
} from '@tanstack/react-router';
import { say } from '../../wording/say.ts';
import { withWords } from '../data/later.ts';
import { Trouble } from '../parts/state.tsx';
import { Round } from '../round/round.tsx';
import { NotFound } from './not-found.tsx';
import { Shell } from './shell.tsx';

const root = createRootRoute({ component: Shell, notFoundComponent: NotFound });
const at = root;

/** A screen is fetched with its words. */
const lazyRouteComponent: typeof fetchedComponent = (load, name) => fetchedComponent(withWords(load), name);

const routes = [
  createRoute({ getParentRoute: () => at, path: '/', component: Round }),
  // Where messages lead: the round, at the notice they are about.
  createRoute({ getParentRoute: () => at, path: '/notices/$noticeId', component: Round }),
  createRoute({
    getParentRoute: () => at,
    path: '/animals',
    component: lazyRouteComponent(() => import('../animals/animals.tsx'), 'Animals'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/animals/new',
    component: lazyRouteComponent(() => import('../animals/new-animal.tsx'), 'NewAnimal'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/animals/$animalId',
    component: lazyRouteComponent(() => import('../animals/animal.tsx'), 'AnimalScreen'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/animals/$animalId/edit',
    component: lazyRouteComponent(() => import('../animals/new-animal.tsx'), 'EditAnimal'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/animals/$animalId/record',
    component: lazyRouteComponent(() => import('../record/record.tsx'), 'RecordScreen'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/animals/$animalId/examinations/$examinationId',
    component: lazyRouteComponent(() => import('../examination/examination.tsx'), 'ChangeExamination'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/deleted',
    component: lazyRouteComponent(() => import('../record/deleted.tsx'), 'DeletedScreen'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/animals/$animalId/examination',
    component: lazyRouteComponent(() => import('../examination/examination.tsx'), 'ExaminationScreen'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/places',
    component: lazyRouteComponent(() => import('../builder/places.tsx'), 'Places'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/places/build',
    component: lazyRouteComponent(() => import('../builder/builder.tsx'), 'NewBuild'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/places/$placeId',
    component: lazyRouteComponent(() => import('../builder/edit-place.tsx'), 'EditPlace'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/places/boxes/$boxId',
    component: lazyRouteComponent(() => import('../builder/builder.tsx'), 'SavedBuild'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/plans',
    component: lazyRouteComponent(() => import('../plan/plans.tsx'), 'Plans'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/plans/$animalId',
    component: lazyRouteComponent(() => import('../plan/plan.tsx'), 'PlanScreen'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/readings',
    component: lazyRouteComponent(() => import('../readings/readings.tsx'), 'Readings'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/places/boxes/$boxId/dry-run',
    component: lazyRouteComponent(() => import('../calibration/calibration.tsx'), 'CalibrationScreen'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/readings/import',
    component: lazyRouteComponent(() => import('../readings/import.tsx'), 'ImportReadings'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/readings/thermometers',
    component: lazyRouteComponent(() => import('../readings/probes.tsx'), 'Thermometers'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/group',
    component: lazyRouteComponent(() => import('../group/group.tsx'), 'GroupScreen'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/shared/$token',
    component: lazyRouteComponent(() => import('../animals/shared.tsx'), 'Shared'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/join/$token',
    component: lazyRouteComponent(() => import('./join.tsx'), 'Join'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/papers',
    component: lazyRouteComponent(() => import('../papers/papers.tsx'), 'Papers'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/settings',
    component: lazyRouteComponent(() => import('../settings/settings.tsx'), 'Settings'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/now',
    component: lazyRouteComponent(() => import('../now/now.tsx'), 'NowList'),
  }),
  createRoute({
    getParentRoute: () => at,
    path: '/now/$pageId',
    component: lazyRouteComponent(() => import('../now/now.tsx'), 'NowPage'),
  }),
] as const;

/** A screen that could not be fetched, or that broke. */
function Broken({ reset }: ErrorComponentProps) {
  return <Trouble error={new Error(say('web.error.screen'))} again={reset} />;
}

export const router = createRouter({
  routeTree: root.addChildren(routes),
  defaultPreload: 'intent',
  defaultErrorComponent: Broken,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
